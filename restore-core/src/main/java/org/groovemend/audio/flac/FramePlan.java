package org.groovemend.audio.flac;

/** Every decision in one frame but no sample. Reused, mutable. */
final class FramePlan {

  final FrameHeader header = new FrameHeader();
  final SubframePlan[] subframes = {new SubframePlan(), new SubframePlan()};

  /** Bits of a sample in a subframe of this frame in a stream of {@code bits}. */
  int subframeBits(int subframe, int bits) {
    return header.assignment.sideSubframe() == subframe ? bits + 1 : bits;
  }
}
