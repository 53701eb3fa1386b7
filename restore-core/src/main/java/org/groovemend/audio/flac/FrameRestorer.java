package org.groovemend.audio.flac;

import java.nio.BufferOverflowException;

/** Gives frames back from their recipes, in order. */
final class FrameRestorer {

  private final StreamInfo shape;
  private final FramePlan plan = new FramePlan();
  private final FrameHeader before = new FrameHeader();
  private final FrameWriter writer = new FrameWriter();
  private final byte[] headerBytes = new byte[FrameHeader.MAX_BYTES + 1];
  private byte[] verbatim;

  /**
   * @param shape rate, channels and bits of the stream; the rest is not looked at
   */
  FrameRestorer(StreamInfo shape) {
    this.shape = shape;
  }

  /** The last header; none is known at the start of a group. */
  FrameHeader before() {
    return before;
  }

  void startGroup() {
    before.rawLength = 0;
  }

  /**
   * Reads the header of the next frame and gives its block size: the samples that {@link #finish}
   * needs.
   */
  int begin(RecipeBytes in) throws DamagedFrameException {
    int flags = in.next();
    verbatim = null;
    if (flags == FrameRecipe.VERBATIM) {
      int length = in.number();
      if (length > in.remaining()) {
        throw new DamagedFrameException("the recipe ends too soon");
      }
      verbatim = new byte[length];
      in.copy(verbatim, 0, length);
      plan.header.parse(verbatim, 0, length, shape);
      return plan.header.blockSize;
    }
    int length;
    if (flags == FrameRecipe.NEXT) {
      length = FrameRecipe.next(before, headerBytes);
    } else {
      length = in.next();
      if (flags != 0 || length >= FrameHeader.MAX_BYTES) {
        throw new DamagedFrameException("a frame of the recipe is of a kind not known here");
      }
      in.copy(headerBytes, 0, length);
    }
    headerBytes[length] = (byte) FrameCrc.crc8(headerBytes, 0, length);
    if (plan.header.parse(headerBytes, 0, length + 1, shape) != length + 1) {
      throw new DamagedFrameException("a frame header of the recipe is of the wrong length");
    }
    return plan.header.blockSize;
  }

  /**
   * Makes the bytes of the frame.
   *
   * @param samples left and right, or mono, at the bits of the stream
   */
  void finish(RecipeBytes in, int[][] samples) throws DamagedFrameException {
    int count = plan.header.blockSize;
    if (verbatim == null) {
      try {
        write(in, samples, count);
      } catch (BufferOverflowException e) {
        throw new DamagedFrameException("a frame of the recipe does not end");
      }
    }
    before.copyFrom(plan.header);
  }

  private void write(RecipeBytes in, int[][] samples, int count) throws DamagedFrameException {
    writer.begin(plan, shape.bits(), samples);
    for (int s = 0; s < shape.channels(); s++) {
      SubframePlan sub = plan.subframes[s];
      FrameRecipe.getPredictor(in, sub);
      if (sub.order > count || sub.wastedBits >= plan.subframeBits(s, shape.bits())) {
        throw new DamagedFrameException("a subframe of the recipe does not fit its block");
      }
      writer.dropWastedBits(s);
      int[] residual = writer.predict(s);
      if (sub.hasResidual()) {
        FrameRecipe.getPartitions(in, sub, residual, count);
      }
      writer.write(s);
    }
    writer.end();
  }

  byte[] bytes() {
    return verbatim != null ? verbatim : writer.bytes();
  }

  int length() {
    return verbatim != null ? verbatim.length : writer.length();
  }
}
