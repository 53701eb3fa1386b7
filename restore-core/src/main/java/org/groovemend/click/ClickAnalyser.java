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
  private ClickAnalyser() {}

  /**
   * Reads at most about 60 s of the side in pieces spread evenly, and sets the thresholds by the
   * odds found there; then adds clicks to working copies of some of them to see which sizes are
   * found.
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
    RepairDomain domain = RepairDomain.of(captured, rate);
    ClickDetector detector = new ClickDetector(g, domain, side.format());
    Sample[] samples = new Sample[channels];
    for (int c = 0; c < channels; c++) {
      samples[c] = new Sample();
    }
    SampledPieces pieces = new SampledPieces(side.frames(), g, rate);
    ShapeSample shapes = new ShapeSample();
    List<List<Occupied>> occupied = new ArrayList<>();
    long frames = 0;
    for (int i = 0; i < pieces.count(); i++) {
      SegmentWindow window = pieces.window(side, i);
      occupied.add(look(window, detector, g, samples, shapes));
      frames += window.segmentEnd() - window.segmentStart();
    }
    ClickCalibration thresholds =
        calibration(p, captured, samples, frames / (double) rate, leastEvidence);
    if (p.isNeutral()) {
      return thresholds;
    }
    ClickTrials trials =
        new ClickTrials(
            detector,
            new ClickDecision(thresholds, g, rate),
            g,
            domain.floor(side.format().quantumStep()));
    return thresholds.withRecall(
        trials.run(side, pieces, occupied, shapes.enough() ? shapes.shapes() : List.of()));
  }

  /** Notes what a stretch shows; returns the places that may be damage. */
  private static List<Occupied> look(
      SegmentWindow window,
      ClickDetector detector,
      ClickGeometry g,
      Sample[] samples,
      ShapeSample shapes) {
    int channels = samples.length;
    detector.load(window);
    List<List<Candidate>> found = new ArrayList<>();
    for (int c = 0; c < channels; c++) {
      found.add(detector.candidates(c, window.segmentStart(), window.segmentEnd()));
    }
    shapes.add(found, detector);
    for (int c = 0; c < channels; c++) {
      long end = Long.MIN_VALUE;
      for (Candidate k : found.get(c)) {
        samples[c].add(k.logOdds(), k.start() < end + g.order());
        samples[c].addScale(k.scale());
        end = Math.max(end, k.end());
      }
    }
    return found.stream()
        .flatMap(List::stream)
        .filter(k -> k.logOdds() > 0)
        .map(k -> new Occupied(k.start(), k.end()))
        .toList();
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
    double ofTail = 0;
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
      ofTail += tail.alarms(threshold);
    }
    String domain =
        switch (captured) {
          case RIAA -> "curve-undone";
          case FLAT -> "flat";
          case UNKNOWN -> "flat-assumed";
        };
    return new ClickCalibration(
        domain,
        thresholds,
        starts,
        spreads,
        rates,
        scales,
        expected,
        seconds,
        ClickAlarms.of(expected, ofTail, seconds / 60),
        null);
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
