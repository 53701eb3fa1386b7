package org.groovemend.audit;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.RangeReader;
import org.groovemend.walls.DelayFinding;
import org.groovemend.walls.DelaySearch;
import org.groovemend.walls.PassageDelay;

/**
 * What is left of the lag when whole frames are taken out.
 *
 * @param samples original minus derivative, at the middle of the derivative
 * @param doubt standard deviation
 * @param slope change a frame
 * @param slopeDoubt standard deviation; infinite if it cannot be told
 * @param wander largest distance of a passage from the line, where it stands out; else 0
 */
record PartOfFrame(double samples, double doubt, double slope, double slopeDoubt, double wander) {

  private static final double FAR = 3;
  private static final double WANDERS = 8;

  /** One stretch of both sides, for {@link DelaySearch}. */
  private static final class Pair implements RangeReader {
    private final Silent timeline;
    private final RangeReader derivative;
    private final Pairing pairing;
    private final Alignment.Stretch stretch;
    private double[][] o = new double[0][0];
    private double[][] d = new double[0][0];

    Pair(Silent timeline, RangeReader derivative, Pairing pairing, Alignment.Stretch stretch) {
      this.timeline = timeline;
      this.derivative = derivative;
      this.pairing = pairing;
      this.stretch = stretch;
    }

    @Override
    public AudioFormat format() {
      return AudioFormat.ieeeFloat(derivative.format().sampleRateHz(), 2, 64);
    }

    @Override
    public long frames() {
      return stretch.frames();
    }

    @Override
    public void read(long first, int count, double[][] into) throws IOException {
      if (o.length == 0 || o[0].length < count) {
        o = new double[timeline.channels()][count];
        d = new double[derivative.format().channels()][count];
      }
      long at = stretch.from() + first;
      timeline.read(at + stretch.lag(), count, o, 0);
      derivative.read(at, count, d);
      Pairing.take(pairing.original(), o, count, into[0]);
      Pairing.take(pairing.derivative(), d, count, into[1]);
    }
  }

  static PartOfFrame of(
      RangeReader timeline,
      RangeReader derivative,
      Pairing pairing,
      List<Alignment.Stretch> stretches)
      throws IOException {
    List<double[]> told = new ArrayList<>(); // frame, delay, doubt, stretch
    Silent padded = new Silent(timeline);
    int rate = derivative.format().sampleRateHz();
    double whole = 0;
    double wholeDoubt = Double.POSITIVE_INFINITY;
    for (int s = 0; s < stretches.size(); s++) {
      Alignment.Stretch stretch = stretches.get(s);
      DelayFinding delay = DelaySearch.of(new Pair(padded, derivative, pairing, stretch));
      for (PassageDelay p : delay.passages()) {
        told.add(
            new double[] {stretch.from() + p.seconds() * rate, p.samples(), p.doubtSamples(), s});
      }
      if (delay.doubtSamples() < wholeDoubt) {
        whole = delay.samples();
        wholeDoubt = delay.doubtSamples();
      }
    }
    if (told.size() < 3) {
      return new PartOfFrame(whole, wholeDoubt, 0, Double.POSITIVE_INFINITY, 0);
    }
    return line(told, derivative.frames() / 2.0);
  }

  /** A line through all, passages that lie far off counting less (P. Huber 1964). */
  private static PartOfFrame line(List<double[]> told, double middle) {
    double[] sorted = told.stream().mapToDouble(p -> p[1]).sorted().toArray();
    double at = sorted[sorted.length / 2];
    double slope = 0;
    double scale = 1;
    double doubt = Double.POSITIVE_INFINITY;
    double slopeDoubt = Double.POSITIVE_INFINITY;
    double[] off = new double[told.size()];
    for (int round = 0; round < 12; round++) {
      for (int i = 0; i < off.length; i++) {
        double[] p = told.get(i);
        off[i] = Math.abs(p[1] - at - slope * (p[0] - middle)) / p[2];
      }
      double[] spread = off.clone();
      Arrays.sort(spread);
      scale = Math.max(1, 1.4826 * spread[spread.length / 2]);
      double w0 = 0;
      double w1 = 0;
      double w2 = 0;
      double y0 = 0;
      double y1 = 0;
      for (int i = 0; i < off.length; i++) {
        double[] p = told.get(i);
        double far = off[i] / scale;
        double w = (far > FAR ? FAR / far : 1) / (p[2] * p[2]);
        double t = p[0] - middle;
        w0 += w;
        w1 += w * t;
        w2 += w * t * t;
        y0 += w * p[1];
        y1 += w * t * p[1];
      }
      double det = w0 * w2 - w1 * w1;
      if (!(det > 0)) {
        break;
      }
      at = (w2 * y0 - w1 * y1) / det;
      slope = (w0 * y1 - w1 * y0) / det;
      doubt = scale * Math.sqrt(w2 / det);
      slopeDoubt = scale * Math.sqrt(w0 / det);
    }
    double wander = 0;
    for (double[] p : told) {
      double far = Math.abs(p[1] - at - slope * (p[0] - middle));
      if (far > WANDERS * p[2] && far > 0.05) {
        wander = Math.max(wander, far);
      }
    }
    // the derivative later than the original: its lag is smaller
    return new PartOfFrame(-at, doubt, -slope, slopeDoubt, wander);
  }
}
