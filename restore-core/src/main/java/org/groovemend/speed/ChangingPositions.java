package org.groovemend.speed;

import java.util.Arrays;
import org.groovemend.resample.PositionMap;

/**
 * Positions for a rate that changes: it is integrated over steps of 5 ms by Simpson's rule, and
 * between these the position is a cubic in the output frame with the right slopes at both ends. For
 * wow of 1 % at 78 rpm that is off by less than a millionth of a frame. Keeps 16 bytes for each
 * second of the side, and the steps of one second.
 */
final class ChangingPositions implements PositionMap {
  private static final int STEPS = 200;

  private final TimeMap.Rate rate;
  private final int inputHz;
  private final int outputHz;

  /** Output frame at the start of each second of the input: whole and part. */
  private final long[] whole;

  private final double[] part;
  private double steepest;
  private double gentlest = Double.POSITIVE_INFINITY;

  private int second = -1;

  /** Output frames since the second's start at each step, and input frames a frame there. */
  private final double[] passed = new double[STEPS + 1];

  private final double[] slope = new double[STEPS + 1];

  ChangingPositions(TimeMap.Rate rate, int inputHz, long inputFrames, int outputHz) {
    this.rate = rate;
    this.inputHz = inputHz;
    this.outputHz = outputHz;
    // two seconds beyond the end, for those who ask where the end is
    int seconds = Math.toIntExact(inputFrames / inputHz + 3);
    whole = new long[seconds + 1];
    part = new double[seconds + 1];
    for (int s = 0; s < seconds; s++) {
      go(s);
      double end = part[s] + passed[STEPS];
      double floor = Math.floor(end);
      whole[s + 1] = whole[s] + (long) floor;
      part[s + 1] = end - floor;
      for (double one : slope) {
        steepest = Math.max(steepest, one);
        gentlest = Math.min(gentlest, one);
      }
    }
    // what may lie between two steps
    steepest *= 1 + 1e-4;
    gentlest *= 1 - 1e-4;
  }

  private void go(int to) {
    if (second == to) {
      return;
    }
    second = to;
    double h = 1.0 / STEPS;
    double before = rate.at(to);
    slope[0] = inputHz / (outputHz * before);
    for (int j = 1; j <= STEPS; j++) {
      double middle = rate.at(to + (j - 0.5) * h);
      double after = rate.at(to + j * h);
      passed[j] = passed[j - 1] + outputHz * h / 6 * (before + 4 * middle + after);
      slope[j] = inputHz / (outputHz * after);
      before = after;
    }
  }

  @Override
  public void positions(long first, int count, long[] wholeOut, double[] fraction) {
    int step = 0;
    double width = (double) inputHz / STEPS;
    for (int i = 0; i < count; i++) {
      double past = since(first + i);
      if (past < 0 || past >= passed[STEPS]) {
        find(first + i);
        past = since(first + i);
        step = 0;
      }
      if (past < passed[step]) {
        step = 0;
      }
      while (step < STEPS - 1 && past >= passed[step + 1]) {
        step++;
      }
      double h = passed[step + 1] - passed[step];
      double at =
          step * width
              + MonotoneCubic.hermite(
                  h, past - passed[step], 0, width, slope[step], slope[step + 1]);
      double floor = Math.floor(at);
      wholeOut[i] = (long) second * inputHz + (long) floor;
      fraction[i] = at - floor;
    }
  }

  private double since(long frame) {
    return second < 0 ? -1 : frame - whole[second] - part[second];
  }

  /** Goes to the second that an output frame lies in. */
  private void find(long frame) {
    int at = Arrays.binarySearch(whole, frame);
    int s = at >= 0 ? at : -at - 2;
    while (s > 0 && frame - whole[s] - part[s] < 0) {
      s--;
    }
    go(Math.max(0, Math.min(s, whole.length - 2)));
    if (since(frame) >= passed[STEPS] && second < whole.length - 2) {
      go(second + 1);
    }
  }

  @Override
  public double outputFrame(long position) {
    go((int) Math.max(0, Math.min(position / inputHz, whole.length - 2)));
    double x = (position - (long) second * inputHz) * (double) STEPS / inputHz;
    int step = (int) Math.max(0, Math.min(STEPS - 1, Math.floor(x)));
    return whole[second]
        + (part[second] + passed[step] + (x - step) * (passed[step + 1] - passed[step]));
  }

  @Override
  public double steepest() {
    return steepest;
  }

  @Override
  public double gentlest() {
    return gentlest;
  }

  @Override
  public boolean identity() {
    return false;
  }
}
