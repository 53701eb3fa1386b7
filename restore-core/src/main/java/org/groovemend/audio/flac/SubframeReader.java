package org.groovemend.audio.flac;

import java.util.Arrays;

/**
 * Decodes one subframe, RFC 9639 section 9.2, and notes in a {@link SubframePlan} how it was coded.
 */
final class SubframeReader {

  private SubframeReader() {}

  /**
   * @param bits of a sample of this subframe, 4 to 32
   * @param residual room for {@code count}; keeps the residual of a predicted subframe
   * @param x takes the samples
   */
  static void read(BitReader in, int bits, int count, SubframePlan plan, int[] residual, int[] x)
      throws DamagedFrameException {
    int kept = readKind(in, bits, count, plan);
    switch (plan.type) {
      case CONSTANT -> Arrays.fill(x, 0, count, (int) in.readSigned(kept));
      case VERBATIM -> {
        for (int i = 0; i < count; i++) {
          x[i] = (int) in.readSigned(kept);
        }
      }
      case FIXED, LINEAR -> {
        for (int i = 0; i < plan.order; i++) {
          x[i] = (int) in.readSigned(kept);
        }
        readPredictor(in, plan);
        ResidualReader.read(in, plan, count, residual);
        if (plan.type == SubframeType.FIXED) {
          FixedPredictor.restore(plan.order, residual, x, count);
        } else {
          LinearPredictor.restore(plan, residual, x, count);
        }
      }
    }
    if (plan.wastedBits > 0) {
      for (int i = 0; i < count; i++) {
        x[i] <<= plan.wastedBits;
      }
    }
  }

  /** As {@link #read} for the side channel of 32-bit samples. */
  static void readWide(
      BitReader in, int bits, int count, SubframePlan plan, int[] residual, long[] x)
      throws DamagedFrameException {
    int kept = readKind(in, bits, count, plan);
    int given = plan.type == SubframeType.VERBATIM ? count : plan.order;
    for (int i = 0; i < given; i++) {
      x[i] = in.readSigned(kept);
    }
    if (plan.type == SubframeType.CONSTANT) {
      Arrays.fill(x, 0, count, in.readSigned(kept));
    } else if (plan.hasResidual()) {
      readPredictor(in, plan);
      ResidualReader.read(in, plan, count, residual);
      for (int i = plan.order; i < count; i++) {
        long prediction =
            plan.type == SubframeType.FIXED
                ? FixedPredictor.predictWide(plan.order, x, i)
                : LinearPredictor.predictWide(plan, x, i);
        x[i] = prediction + residual[i];
      }
    }
    for (int i = 0; i < count; i++) {
      x[i] <<= plan.wastedBits;
    }
  }

  /** Reads type, order and wasted bits; gives the bits of a sample that are left. */
  private static int readKind(BitReader in, int bits, int count, SubframePlan plan)
      throws DamagedFrameException {
    int head = (int) in.read(8);
    int code = head >> 1 & 0x3f;
    plan.order = 0;
    if ((head & 0x80) != 0) {
      throw new DamagedFrameException("a reserved bit of a subframe header is set");
    } else if (code == 0) {
      plan.type = SubframeType.CONSTANT;
    } else if (code == 1) {
      plan.type = SubframeType.VERBATIM;
    } else if (code >= 8 && code <= 8 + FixedPredictor.MAX_ORDER) {
      plan.type = SubframeType.FIXED;
      plan.order = code - 8;
    } else if (code >= 32) {
      plan.type = SubframeType.LINEAR;
      plan.order = code - 31;
    } else {
      throw new DamagedFrameException("a subframe is of the reserved type " + code);
    }
    if (plan.order > count) {
      throw new DamagedFrameException("a predictor is longer than the block of " + count);
    }
    long wasted = (head & 1) != 0 ? in.readUnary() + 1 : 0;
    if (wasted >= bits) {
      throw new DamagedFrameException("a subframe leaves out all bits of its samples");
    }
    plan.wastedBits = (int) wasted;
    return bits - plan.wastedBits;
  }

  private static void readPredictor(BitReader in, SubframePlan plan) throws DamagedFrameException {
    if (plan.type == SubframeType.FIXED) {
      return;
    }
    plan.precision = (int) in.read(4) + 1;
    plan.shift = (int) in.readSigned(5);
    if (plan.precision > 15 || plan.shift < 0) {
      throw new DamagedFrameException("a linear predictor has a precision or shift not allowed");
    }
    Arrays.fill(plan.coefficients, 0);
    for (int i = 0; i < plan.order; i++) {
      plan.coefficients[i] = (int) in.readSigned(plan.precision);
    }
  }
}
