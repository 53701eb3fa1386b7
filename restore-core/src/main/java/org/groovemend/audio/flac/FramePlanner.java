package org.groovemend.audio.flac;

/**
 * Chooses how to code a block of new samples: channel assignment, predictor and partitions.
 *
 * <p>Choices are by sums of residual magnitudes, so they are quick and, being integers, the same on
 * every machine.
 */
final class FramePlanner {

  /** Up to here the differences of order 4 of a side channel fit an int. */
  private static final int MAX_NARROW_BITS = 27;

  private final int bits;
  private final FixedOrderSearch search = new FixedOrderSearch();
  private final LinearAnalysis analysis = new LinearAnalysis();
  private final PartitionSearch partitions = new PartitionSearch();
  private int[] mid = new int[0];
  private int[] side = new int[0];

  FramePlanner(int bits) {
    this.bits = bits;
  }

  /** Chooses what the subframes hold. */
  ChannelAssignment chooseAssignment(int[][] samples, int channels, int count) {
    if (channels == 1) {
      return ChannelAssignment.MONO;
    }
    int[] left = samples[0];
    int[] right = samples[1];
    if (bits > MAX_NARROW_BITS || isConstant(left, count) || isConstant(right, count)) {
      // a side channel of 33 bits would need other arithmetic in every decoder; and a constant
      // channel costs nothing
      return ChannelAssignment.LEFT_RIGHT;
    }
    if (mid.length < count) {
      mid = new int[count];
      side = new int[count];
    }
    ChannelAssignment.MID_SIDE.split(left, right, mid, side, count);
    long l = search.proxy(left, count);
    long r = search.proxy(right, count);
    long m = search.proxy(mid, count);
    long s = search.proxy(side, count);
    ChannelAssignment best = ChannelAssignment.LEFT_RIGHT;
    long least = l + r;
    if (m + s < least) {
      best = ChannelAssignment.MID_SIDE;
      least = m + s;
    }
    if (l + s < least) {
      best = ChannelAssignment.LEFT_SIDE;
      least = l + s;
    }
    return s + r < least ? ChannelAssignment.SIDE_RIGHT : best;
  }

  /** Chooses type, wasted bits and predictor of a subframe. */
  void choosePredictor(FramePlan frame, int subframe, int[] x, int count) {
    SubframePlan plan = frame.subframes[subframe];
    plan.order = 0;
    plan.wastedBits = 0;
    if (isConstant(x, count)) {
      plan.type = SubframeType.CONSTANT;
      return;
    }
    int any = 0;
    for (int i = 0; i < count; i++) {
      any |= x[i];
    }
    plan.wastedBits = Integer.numberOfTrailingZeros(any);
    if (bits > MAX_NARROW_BITS) {
      search.searchWide(x, count);
    } else {
      search.search(x, count);
    }
    plan.type = search.order() < 0 ? SubframeType.VERBATIM : SubframeType.FIXED;
    plan.order = Math.max(0, search.order());
  }

  /**
   * Takes a linear predictor instead if it promises to be worth its price; {@code x} has lost its
   * wasted bits.
   */
  void improvePredictor(FramePlan frame, int subframe, int[] x, int count) {
    SubframePlan plan = frame.subframes[subframe];
    if (plan.type == SubframeType.FIXED && bits <= MAX_NARROW_BITS) {
      analysis.improve(plan, x, count);
    }
  }

  /**
   * Whether the linear predictor does not keep its promise; then the plan is the polynomial one
   * again.
   */
  boolean isWorseThanPolynomial(FramePlan frame, int subframe, int[] residual, int count) {
    SubframePlan plan = frame.subframes[subframe];
    if (plan.type != SubframeType.LINEAR
        || RiceParameter.magnitude(residual, plan.order, count)
            < search.magnitude() >> plan.wastedBits) {
      return false;
    }
    plan.type = SubframeType.FIXED;
    plan.order = search.order();
    return true;
  }

  /**
   * Completes the plan of a subframe, given its residual; turns it into VERBATIM if nothing is
   * gained.
   */
  void chooseCoding(FramePlan frame, int subframe, int[] residual, int count) {
    SubframePlan plan = frame.subframes[subframe];
    if (plan.hasResidual()) {
      int kept = frame.subframeBits(subframe, bits) - plan.wastedBits;
      long length = partitions.choose(plan, residual, count) + (long) plan.order * kept;
      if (length >= (long) count * kept) {
        plan.type = SubframeType.VERBATIM;
        plan.order = 0;
      }
    }
  }

  private static boolean isConstant(int[] x, int count) {
    int first = x[0];
    int differs = 0;
    for (int i = 0; i < count; i++) {
      differs |= x[i] ^ first;
    }
    return differs == 0;
  }
}
