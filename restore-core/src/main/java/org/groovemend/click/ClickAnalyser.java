package org.groovemend.click;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.robust.Median;
import org.groovemend.stage.CaptureCurve;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.SegmentWindow;

/** Sets the thresholds of click repair from a sample of the side itself. */
public final class ClickAnalyser {
  private static final double SAMPLE_SECONDS = 60;
  private static final int PIECE_HOPS = 64;

  private ClickAnalyser() {}

  /**
   * Reads at most about 60 s of the side in pieces spread evenly, and fits the tail of the
   * statistic.
   *
   * @throws IOException if the side cannot be read
   */
  public static ClickCalibration analyse(RangeReader side, ClickParameters p, CaptureCurve captured)
      throws IOException {
    return analyse(side, p, captured, ClickTail.LEAST_EVIDENCE);
  }

  /** The same with another evidence that every place must have. */
  static ClickCalibration analyse(
      RangeReader side, ClickParameters p, CaptureCurve captured, double leastEvidence)
      throws IOException {
    int rate = side.format().sampleRateHz();
    int channels = side.format().channels();
    ClickGeometry g = ClickGeometry.of(p, rate);
    ClickDetector detector = new ClickDetector(g, RepairDomain.of(captured, rate), side.format());
    Sample[] samples = new Sample[channels];
    for (int c = 0; c < channels; c++) {
      samples[c] = new Sample();
    }
    long piece = (long) PIECE_HOPS * g.hop();
    long pieces = (side.frames() + piece - 1) / piece;
    long wanted = Math.max(1, (long) (SAMPLE_SECONDS * rate / piece));
    long frames = 0;
    long last = -1;
    for (long i = 0; i < Math.min(pieces, wanted); i++) {
      long k = pieces <= wanted ? i : i * pieces / wanted;
      if (k == last) {
        continue;
      }
      last = k;
      frames +=
          look(side, detector, g, k * piece, Math.min(side.frames(), (k + 1) * piece), samples);
    }
    return calibration(p, captured, samples, frames / (double) rate, leastEvidence);
  }

  private static long look(
      RangeReader side,
      ClickDetector detector,
      ClickGeometry g,
      long from,
      long to,
      Sample[] samples)
      throws IOException {
    int channels = samples.length;
    int context = 8 * g.hop();
    long first = Math.max(0, from - context);
    int length = (int) (Math.min(side.frames(), to + context) - first);
    double[][] x = new double[channels][length];
    side.read(first, length, x);
    detector.load(new SegmentWindow(x, first, length, from, to, side.frames()));
    List<List<Candidate>> found = new ArrayList<>();
    for (int c = 0; c < channels; c++) {
      found.add(detector.candidates(c, from, to));
    }
    for (int c = 0; c < channels; c++) {
      long end = Long.MIN_VALUE;
      for (Candidate k : found.get(c)) {
        samples[c].add(k.logOdds(), k.start() < end + g.order());
        samples[c].addScale(k.scale());
        end = Math.max(end, k.end());
      }
    }
    return to - from;
  }

  private static ClickCalibration calibration(
      ClickParameters p,
      CaptureCurve captured,
      Sample[] samples,
      double seconds,
      double leastEvidence) {
    List<Double> thresholds = new ArrayList<>();
    List<Double> starts = new ArrayList<>();
    List<Double> spreads = new ArrayList<>();
    List<Double> rates = new ArrayList<>();
    List<Double> scales = new ArrayList<>();
    double expected = 0;
    for (Sample s : samples) {
      ClickTail tail = ClickTail.fit(s.statistics, s.count, seconds / 60);
      double threshold =
          p.isNeutral()
              ? ClickTail.HIGHEST
              : ClickTail.oddsThreshold(
                  s.statistics,
                  s.count,
                  seconds / 60,
                  p.expectedFalseAlarmsPerMinute() / samples.length,
                  leastEvidence);
      thresholds.add(threshold);
      starts.add(ClickTail.START);
      spreads.add(tail.spread());
      rates.add(tail.ratePerMinute());
      scales.add(s.medianScale());
      expected += ClickTail.expected(s.statistics, s.count, seconds / 60, threshold);
    }
    String domain =
        switch (captured) {
          case RIAA -> "curve-undone";
          case FLAT -> "flat";
          case UNKNOWN -> "flat-assumed";
        };
    return new ClickCalibration(
        domain, thresholds, starts, spreads, rates, scales, expected, seconds);
  }

  /** What was met in one channel. */
  private static final class Sample {
    private double[] statistics = new double[64];
    private double[] scales = new double[64];
    private int count;
    private int scaleCount;

    /** Neighbouring blocks report a place twice: the larger statistic counts. */
    void add(double q, boolean sameAsLast) {
      if (sameAsLast && count > 0) {
        statistics[count - 1] = Math.max(statistics[count - 1], q);
        return;
      }
      if (count == statistics.length) {
        statistics = Arrays.copyOf(statistics, 2 * count);
      }
      statistics[count++] = q;
    }

    void addScale(double s) {
      if (scaleCount == scales.length) {
        scales = Arrays.copyOf(scales, 2 * scaleCount);
      }
      scales[scaleCount++] = s;
    }

    double medianScale() {
      return scaleCount == 0 ? 0 : Median.of(scales, 0, scaleCount);
    }
  }
}
