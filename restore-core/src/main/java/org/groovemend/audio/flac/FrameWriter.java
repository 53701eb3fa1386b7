package org.groovemend.audio.flac;

/**
 * Turns the plan of a frame and its samples into its bytes; the plan may be completed between the
 * steps.
 */
final class FrameWriter {

  private final BitWriter out = new BitWriter(1 << 15);
  private int[][] held = {new int[0], new int[0]};
  private int[][] residual = {new int[0], new int[0]};
  private long[] wideSide = new long[0];
  private FramePlan plan;
  private int bits;

  /** Starts a frame with its header; the samples are left and right, or mono. */
  void begin(FramePlan plan, int bits, int[][] samples) {
    this.plan = plan;
    this.bits = bits;
    int count = plan.header.blockSize;
    if (held[0].length < count) {
      held = new int[][] {new int[count], new int[count]};
      residual = new int[][] {new int[count], new int[count]};
    }
    ChannelAssignment assignment = plan.header.assignment;
    assignment.split(samples[0], samples[1], held[0], held[1], count);
    if (isWide(assignment.sideSubframe())) {
      if (wideSide.length < count) {
        wideSide = new long[count];
      }
      for (int i = 0; i < count; i++) {
        wideSide[i] = (long) samples[0][i] - samples[1][i];
      }
    }
    out.clear();
    FrameHeader header = plan.header;
    for (int i = 0; i < header.rawLength; i++) {
      out.write(header.raw[i], 8);
    }
    out.write(FrameCrc.crc8(header.raw, 0, header.rawLength), 8);
  }

  private boolean isWide(int subframe) {
    return subframe >= 0 && plan.subframeBits(subframe, bits) > 32;
  }

  /**
   * What a subframe is to hold, wasted bits included until {@link #dropWastedBits}; not for a side
   * wider than 32 bits.
   */
  int[] held(int subframe) {
    return held[subframe];
  }

  /** Shifts the wasted bits out of what a subframe is to hold; once, before {@link #predict}. */
  void dropWastedBits(int subframe) {
    int wasted = plan.subframes[subframe].wastedBits;
    int count = plan.header.blockSize;
    if (isWide(subframe)) {
      for (int i = 0; i < count; i++) {
        wideSide[i] >>= wasted;
      }
    } else if (wasted > 0) {
      int[] x = held[subframe];
      for (int i = 0; i < count; i++) {
        x[i] >>= wasted;
      }
    }
  }

  /**
   * Computes and gives the residual of a subframe, whose plan must be known up to the predictor.
   */
  int[] predict(int subframe) {
    SubframePlan sub = plan.subframes[subframe];
    int count = plan.header.blockSize;
    if (isWide(subframe)) {
      SubframeWriter.predictWide(sub, wideSide, residual[subframe], count);
    } else {
      SubframeWriter.predict(sub, held[subframe], residual[subframe], count);
    }
    return residual[subframe];
  }

  /** Writes a subframe after {@link #predict}; its plan must be known. */
  void write(int subframe) {
    SubframePlan sub = plan.subframes[subframe];
    int count = plan.header.blockSize;
    int subframeBits = plan.subframeBits(subframe, bits);
    if (isWide(subframe)) {
      SubframeWriter.writeWide(out, sub, subframeBits, wideSide, residual[subframe], count);
    } else {
      SubframeWriter.write(out, sub, subframeBits, held[subframe], residual[subframe], count);
    }
  }

  /** Ends the frame with its CRC-16; {@link #bytes()} holds it until the next one begins. */
  void end() {
    out.alignToByte();
    int crc = FrameCrc.crc16(out.bytes(), 0, out.length());
    out.write(crc, 16);
    out.alignToByte();
  }

  byte[] bytes() {
    return out.bytes();
  }

  int length() {
    return out.length();
  }
}
