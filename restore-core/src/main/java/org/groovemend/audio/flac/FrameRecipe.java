package org.groovemend.audio.flac;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;

/**
 * A frame's plan as bytes, written close to what the samples let one guess.
 *
 * <p>A frame begins with a byte of flags: {@link #VERBATIM}: a length and the bytes of the frame
 * follow; {@link #NEXT}: the header is that of the frame before, with the number counted on;
 * otherwise the length and bytes of the header follow. Then by subframe: kind, wasted bits,
 * predictor, and the Rice parameters as distance from {@link RiceParameter#of}. CRCs are not kept:
 * frames are only taken whose CRCs hold. Numbers of more than a byte have seven bits in each, low
 * ones first.
 */
final class FrameRecipe {

  static final int VERBATIM = 1;
  static final int NEXT = 2;

  /** In the byte of the partition order: every parameter is as guessed, none is listed. */
  private static final int AS_GUESSED = 0x40;

  private static final int FIVE_BIT_PARAMETERS = 0x20;
  private static final int ESCAPED = 0xff;

  private FrameRecipe() {}

  /** Appends a plan; the residuals are by subframe. */
  static void put(ByteArrayOutputStream out, FramePlan plan, FrameHeader before, int[][] residual) {
    FrameHeader header = plan.header;
    if (follows(before, header)) {
      out.write(NEXT);
    } else {
      out.write(0);
      out.write(header.rawLength);
      out.write(header.raw, 0, header.rawLength);
    }
    for (int s = 0; s < header.assignment.channels(); s++) {
      SubframePlan sub = plan.subframes[s];
      out.write(sub.type.recipeCode() << 6 | sub.order);
      out.write(sub.wastedBits);
      if (sub.type == SubframeType.LINEAR) {
        out.write(sub.precision << 4 | sub.shift);
        for (int i = 0; i < sub.order; i++) {
          out.write(sub.coefficients[i] >> 8);
          out.write(sub.coefficients[i]);
        }
      }
      if (sub.hasResidual()) {
        putPartitions(out, sub, residual[s], header.blockSize);
      }
    }
  }

  private static void putPartitions(
      ByteArrayOutputStream out, SubframePlan sub, int[] residual, int count) {
    int partitions = 1 << sub.partitionOrder;
    byte[] distances = new byte[partitions];
    int any = 0;
    int from = sub.order;
    for (int p = 0; p < partitions; p++) {
      int to = sub.partitionEnd(p, count);
      int distance =
          sub.rawBits[p] != SubframePlan.RICE
              ? ESCAPED
              : fold(sub.parameters[p] - guess(sub, residual, from, to));
      distances[p] = (byte) distance;
      any |= distance;
      from = to;
    }
    int method = sub.parameterBits == 5 ? FIVE_BIT_PARAMETERS : 0;
    out.write(sub.partitionOrder | method | (any == 0 ? AS_GUESSED : 0));
    for (int p = 0; any != 0 && p < partitions; p++) {
      out.write(distances[p]);
      if (distances[p] == (byte) ESCAPED) {
        out.write(sub.rawBits[p]);
      }
    }
  }

  private static int guess(SubframePlan sub, int[] residual, int from, int to) {
    int k = RiceParameter.of(RiceParameter.magnitude(residual, from, to), to - from);
    return Math.min(k, sub.escapeParameter() - 1);
  }

  private static int fold(int distance) {
    return distance << 1 ^ distance >> 31;
  }

  /** Whether a header is the one before with the number counted on. */
  private static boolean follows(FrameHeader before, FrameHeader header) {
    byte[] guess = new byte[FrameHeader.MAX_BYTES];
    int length = next(before, guess);
    return length > 0 && Arrays.equals(guess, 0, length, header.raw, 0, header.rawLength);
  }

  /** Writes the header that would come next and gives its length; 0 if there was none before. */
  static int next(FrameHeader before, byte[] out) {
    if (before.rawLength == 0) {
      return 0;
    }
    int oldNumber = CodedNumber.length(before.raw[4]);
    long number = before.number + (before.fixedBlockSize ? 1 : before.blockSize);
    System.arraycopy(before.raw, 0, out, 0, 4);
    int at = 4 + CodedNumber.put(number, out, 4);
    int tail = before.rawLength - 4 - oldNumber;
    System.arraycopy(before.raw, 4 + oldNumber, out, at, tail);
    return at + tail;
  }

  /** Reads the part of a subframe's plan that goes before its residual. */
  static void getPredictor(RecipeBytes in, SubframePlan sub) throws DamagedFrameException {
    int kind = in.next();
    sub.type = SubframeType.ofRecipeCode(kind >> 6);
    sub.order = kind & 63;
    sub.wastedBits = in.next();
    boolean orderFits =
        switch (sub.type) {
          case CONSTANT, VERBATIM -> sub.order == 0;
          case FIXED -> sub.order <= FixedPredictor.MAX_ORDER;
          case LINEAR -> sub.order >= 1 && sub.order <= SubframePlan.MAX_ORDER;
        };
    if (!orderFits || sub.wastedBits > 32) {
      throw new DamagedFrameException("a subframe of the recipe is not one of FLAC");
    }
    if (sub.type == SubframeType.LINEAR) {
      int scale = in.next();
      sub.precision = scale >> 4;
      sub.shift = scale & 15;
      Arrays.fill(sub.coefficients, 0);
      for (int i = 0; i < sub.order; i++) {
        sub.coefficients[i] = (byte) in.next() << 8 | in.next();
      }
    }
  }

  /** Reads how the residual is coded, given the residual itself. */
  static void getPartitions(RecipeBytes in, SubframePlan sub, int[] residual, int count)
      throws DamagedFrameException {
    int head = in.next();
    sub.parameterBits = (head & FIVE_BIT_PARAMETERS) != 0 ? 5 : 4;
    sub.setPartitionOrder(head & 15);
    if (sub.partitionEnd(0, count) < sub.order) {
      throw new DamagedFrameException("a partition of the recipe is shorter than its predictor");
    }
    boolean listed = (head & AS_GUESSED) == 0;
    int from = sub.order;
    for (int p = 0; p < 1 << sub.partitionOrder; p++) {
      int to = sub.partitionEnd(p, count);
      int folded = listed ? in.next() : 0;
      if (folded == ESCAPED) {
        sub.rawBits[p] = in.next() & 31;
        sub.parameters[p] = sub.escapeParameter();
      } else {
        sub.rawBits[p] = SubframePlan.RICE;
        int distance = folded >>> 1 ^ -(folded & 1);
        int parameter = guess(sub, residual, from, to) + distance;
        if (parameter < 0 || parameter >= sub.escapeParameter()) {
          throw new DamagedFrameException("a Rice parameter of the recipe is out of range");
        }
        sub.parameters[p] = parameter;
      }
      from = to;
    }
  }
}
