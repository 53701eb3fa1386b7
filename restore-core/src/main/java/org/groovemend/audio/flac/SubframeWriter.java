package org.groovemend.audio.flac;

/** Writes one subframe from its plan and samples: the inverse of {@link SubframeReader}. */
final class SubframeWriter {

  private SubframeWriter() {}

  /**
   * Fills {@code residual[plan.order]} to {@code residual[count - 1]}.
   *
   * @param x the samples without the wasted bits
   */
  static void predict(SubframePlan plan, int[] x, int[] residual, int count) {
    if (plan.type == SubframeType.FIXED) {
      FixedPredictor.residual(plan.order, x, residual, count);
    } else if (plan.type == SubframeType.LINEAR) {
      LinearPredictor.residual(plan, x, residual, count);
    }
  }

  /**
   * As {@link #predict} for the side channel of 32-bit samples; residuals are taken modulo 2^32.
   */
  static void predictWide(SubframePlan plan, long[] x, int[] residual, int count) {
    if (!plan.hasResidual()) {
      return;
    }
    for (int i = plan.order; i < count; i++) {
      long prediction =
          plan.type == SubframeType.FIXED
              ? FixedPredictor.predictWide(plan.order, x, i)
              : LinearPredictor.predictWide(plan, x, i);
      residual[i] = (int) (x[i] - prediction);
    }
  }

  /**
   * @param bits of a sample of this subframe, wasted ones included
   * @param x the samples without the wasted bits
   * @param residual of a predicted subframe, from the order on
   */
  static void write(
      BitWriter out, SubframePlan plan, int bits, int[] x, int[] residual, int count) {
    writeKind(out, plan);
    int kept = bits - plan.wastedBits;
    int given = given(plan, count);
    for (int i = 0; i < given; i++) {
      out.write(x[i], kept);
    }
    writePrediction(out, plan, residual, count);
  }

  /** As {@link #write} for the side channel of 32-bit samples. */
  static void writeWide(
      BitWriter out, SubframePlan plan, int bits, long[] x, int[] residual, int count) {
    writeKind(out, plan);
    int kept = bits - plan.wastedBits;
    int given = given(plan, count);
    for (int i = 0; i < given; i++) {
      out.writeWide(x[i], kept);
    }
    writePrediction(out, plan, residual, count);
  }

  /** Samples that stand in the subframe as they are. */
  private static int given(SubframePlan plan, int count) {
    return switch (plan.type) {
      case CONSTANT -> 1;
      case VERBATIM -> count;
      case FIXED, LINEAR -> plan.order;
    };
  }

  private static void writeKind(BitWriter out, SubframePlan plan) {
    int code =
        switch (plan.type) {
          case CONSTANT -> 0;
          case VERBATIM -> 1;
          case FIXED -> 8 + plan.order;
          case LINEAR -> 31 + plan.order;
        };
    out.write(code << 1 | (plan.wastedBits > 0 ? 1 : 0), 8);
    if (plan.wastedBits > 0) {
      out.writeUnary(plan.wastedBits - 1L);
    }
  }

  private static void writePrediction(BitWriter out, SubframePlan plan, int[] residual, int count) {
    if (plan.type == SubframeType.LINEAR) {
      out.write(plan.precision - 1L, 4);
      out.write(plan.shift, 5);
      for (int i = 0; i < plan.order; i++) {
        out.write(plan.coefficients[i], plan.precision);
      }
    }
    if (plan.hasResidual()) {
      writeResidual(out, plan, residual, count);
    }
  }

  private static void writeResidual(BitWriter out, SubframePlan plan, int[] residual, int count) {
    out.write(plan.parameterBits - 4L, 2);
    out.write(plan.partitionOrder, 4);
    int from = plan.order;
    for (int p = 0; p < 1 << plan.partitionOrder; p++) {
      int to = plan.partitionEnd(p, count);
      int raw = plan.rawBits[p];
      if (raw == SubframePlan.RICE) {
        out.write(plan.parameters[p], plan.parameterBits);
        out.writeRice(residual, from, to, plan.parameters[p]);
      } else {
        out.write(plan.escapeParameter(), plan.parameterBits);
        out.write(raw, 5);
        for (int i = from; raw > 0 && i < to; i++) {
          out.write(residual[i], raw);
        }
      }
      from = to;
    }
  }
}
