package org.groovemend.transfer;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.measure.CompensatedSum;

/**
 * Constant offset of each channel and how it moves: means over {@value #PARTS} equal parts of the
 * side, of {@value #LEAST_SECONDS} s at least, so that rumble and music average out.
 */
public final class OffsetMeter implements BlockMeter {
  private static final int PARTS = 32;
  private static final double LEAST_SECONDS = 5;

  private final long partFrames;
  private final CompensatedSum[] whole;
  private final List<List<Double>> parts = new ArrayList<>();
  private final double[] sum;
  private long inPart;
  private long frames;

  public OffsetMeter(int sampleRateHz, int channels, long frames) {
    partFrames = Math.max((frames + PARTS - 1) / PARTS, (long) (LEAST_SECONDS * sampleRateHz));
    whole = new CompensatedSum[channels];
    sum = new double[channels];
    for (int c = 0; c < channels; c++) {
      whole[c] = new CompensatedSum();
      parts.add(new ArrayList<>());
    }
  }

  @Override
  public void accept(long[][] words, double[][] samples, int count) {
    for (int done = 0; done < count; ) {
      int n = (int) Math.min(count - done, partFrames - inPart);
      for (int c = 0; c < sum.length; c++) {
        double total = 0;
        for (int i = done; i < done + n; i++) {
          total += samples[c][i];
        }
        sum[c] += total;
      }
      done += n;
      inPart += n;
      frames += n;
      if (inPart == partFrames) {
        endPart();
      }
    }
  }

  private void endPart() {
    for (int c = 0; c < sum.length; c++) {
      whole[c].add(sum[c]);
      parts.get(c).add(sum[c] / inPart);
      sum[c] = 0;
    }
    inPart = 0;
  }

  /** After the last block; one for each channel. */
  public List<Offset> finish() {
    List<Offset> found = new ArrayList<>();
    for (int c = 0; c < sum.length; c++) {
      whole[c].add(sum[c]);
      double drift = 0;
      List<Double> each = parts.get(c);
      for (double a : each) {
        for (double b : each) {
          drift = Math.max(drift, a - b);
        }
      }
      found.add(
          new Offset(
              frames == 0 ? 0 : whole[c].value() / frames, each.size() < 2 ? Double.NaN : drift));
    }
    return found;
  }
}
