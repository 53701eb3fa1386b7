package org.groovemend.audio.flac;

import java.util.Arrays;

/**
 * Chooses how to code a block of new samples: channel assignment, predictor and partitions.
 *
 * <p>Choices are by sums of residual magnitudes, so they are quick and, being integers, the same on every machine.
 */
final class FramePlanner {

  /** Up to here the differences of order 4 of a side channel fit an int. */
  private static final int MAX_NARROW_BITS = 27;

  private final int bits;
  private final FixedOrderSearch[] search = new FixedOrderSearch[4];
  private final PartitionSearch partitions = new PartitionSearch();
  private int[] mid = new int[0];
  private int[] side = new int[0];

  FramePlanner(int bits) {
    this.bits = bits;
    Arrays.setAll(search, i -> new FixedOrderSearch());
  }

  /** Chooses what the subframes hold. */
  ChannelAssignment chooseAssignment(int[][] samples, int channels, int count) {
    if (channels == 1) {
      return ChannelAssignment.MONO;
    }
    int[] left = samples[0];
    int[] right = samples[1];
    if (bits > MAX_NARROW_BITS || isConstant(left, count) || isConstant(right, count)) {
      // a side channel of 33 bits would need other arithmetic in every decoder; and a constant channel costs nothing
      return ChannelAssignment.LEFT_RIGHT;
    }
    if (mid.length < count) {
      mid = new int[count];
      side = new int[count];
    }
    ChannelAssignment.MID_SIDE.split(left, right, mid, side, count);
    long l = cost(search[0], left, count);
    long r = cost(search[1], right, count);
    long m = cost(search[2], mid, count);
    long s = cost(search[3], side, count);
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

  private static long cost(FixedOrderSearch search, int[] x, int count) {
    search.search(x, count);
    long magnitude = search.magnitude();
    return RiceParameter.bits(magnitude, count, RiceParameter.of(magnitude, count));
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
    FixedOrderSearch found = found(frame.header.assignment, subframe);
    if (bits > MAX_NARROW_BITS) {
      found.searchWide(x, count);
    } else if (frame.header.assignment == ChannelAssignment.MONO
        || frame.header.assignment == ChannelAssignment.LEFT_RIGHT) {
      found.search(x, count);
    }
    plan.type = found.order() < 0 ? SubframeType.VERBATIM : SubframeType.FIXED;
    plan.order = Math.max(0, found.order());
  }

  /** The search that {@link #chooseAssignment} made for what a subframe holds. */
  private FixedOrderSearch found(ChannelAssignment assignment, int subframe) {
    return switch (assignment) {
      case MONO, LEFT_RIGHT -> search[subframe];
      case LEFT_SIDE -> search[subframe == 0 ? 0 : 3];
      case SIDE_RIGHT -> search[subframe == 0 ? 3 : 1];
      case MID_SIDE -> search[2 + subframe];
    };
  }

  /** Completes the plan of a subframe, given its residual; turns it into VERBATIM if nothing is gained. */
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
