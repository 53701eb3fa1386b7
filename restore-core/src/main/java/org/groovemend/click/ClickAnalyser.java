package org.groovemend.click;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rotation.RotationSearch;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;

/** Sets the thresholds of click repair from a sample of the side itself. */
public final class ClickAnalyser {
  private ClickAnalyser() {}

  /**
   * All on the calling thread: see {@link #analyse(RangeReader, ClickParameters, CaptureCurve,
   * Crew)}.
   */
  public static ClickCalibration analyse(RangeReader side, ClickParameters p, CaptureCurve captured)
      throws IOException {
    return analyse(side, p, captured, Crew.alone());
  }

  /**
   * Reads at most about 60 s of the side in pieces spread evenly, and sets the thresholds by the
   * odds found there; then adds clicks to working copies of some of them to see which sizes are
   * found.
   *
   * @throws IOException if the side cannot be read
   */
  public static ClickCalibration analyse(
      RangeReader side, ClickParameters p, CaptureCurve captured, Crew crew) throws IOException {
    int rate = side.format().sampleRateHz();
    ClickGeometry g = ClickGeometry.of(p, rate);
    RepairDomain domain = RepairDomain.of(captured, rate);
    SampledPieces pieces = new SampledPieces(side.frames(), g, rate);
    ClickSample sample = ClickSample.of(side, pieces, g, domain, crew);
    ClickCalibration thresholds = calibration(p, captured, sample, ClickTail.LEAST_EVIDENCE);
    if (p.isNeutral()) {
      return thresholds;
    }
    ClickTrials trials =
        new ClickTrials(
            new ClickDetector(g, domain, side.format()),
            new ClickDecision(thresholds, g, rate),
            g,
            domain.floor(side.format().quantumStep()));
    ShapeSample shapes = sample.shapes();
    return thresholds.withRecall(
        trials.run(side, pieces, sample.occupied(), shapes.enough() ? shapes.shapes() : List.of()));
  }

  /**
   * The same without clicks added for trial, which change no threshold: for who asks not which
   * sizes are found.
   *
   * @param seconds most of the side that are read; fewer set the thresholds less surely
   * @throws IOException if the side cannot be read
   */
  public static ClickCalibration quickThresholds(
      RangeReader side, ClickParameters p, CaptureCurve captured, double seconds, Crew crew)
      throws IOException {
    return thresholds(side, p, captured, ClickTail.LEAST_EVIDENCE, seconds, crew);
  }

  /** The thresholds alone, with another evidence that every place must have. */
  static ClickCalibration thresholds(
      RangeReader side, ClickParameters p, CaptureCurve captured, double leastEvidence, Crew crew)
      throws IOException {
    return thresholds(side, p, captured, leastEvidence, SampledPieces.SECONDS, crew);
  }

  private static ClickCalibration thresholds(
      RangeReader side,
      ClickParameters p,
      CaptureCurve captured,
      double leastEvidence,
      double seconds,
      Crew crew)
      throws IOException {
    int rate = side.format().sampleRateHz();
    ClickGeometry g = ClickGeometry.of(p, rate);
    SampledPieces pieces = new SampledPieces(side.frames(), g, rate, seconds);
    return calibration(
        p,
        captured,
        ClickSample.of(side, pieces, g, RepairDomain.of(captured, rate), crew),
        leastEvidence);
  }

  private static ClickCalibration calibration(
      ClickParameters p, CaptureCurve captured, ClickSample sample, double leastEvidence) {
    double seconds = sample.seconds();
    List<Double> thresholds = new ArrayList<>();
    List<Double> starts = new ArrayList<>();
    List<Double> spreads = new ArrayList<>();
    List<Double> rates = new ArrayList<>();
    List<Double> scales = new ArrayList<>();
    double ofOdds = 0;
    double ofTail = 0;
    for (ClickSample.Channel s : sample.channels()) {
      ClickTail tail = ClickTail.fit(s.statistics, s.count, seconds / 60);
      double threshold =
          p.isNeutral()
              ? ClickTail.HIGHEST
              : tail.threshold(
                  s.statistics,
                  s.count,
                  seconds / 60,
                  p.expectedFalseAlarmsPerMinute() / sample.channels().length,
                  leastEvidence);
      thresholds.add(threshold);
      starts.add(ClickTail.START);
      spreads.add(tail.spread());
      rates.add(tail.ratePerMinute());
      scales.add(s.medianScale());
      ofOdds += tail.expected(s.statistics, s.count, seconds / 60, threshold);
      ofTail += tail.alarms(threshold);
    }
    String domain =
        captured.isCurved() ? "curve-undone" : captured.isFlat() ? "flat" : "flat-assumed";
    ClickAlarms alarms = ClickAlarms.of(ofOdds, ofTail, seconds / 60);
    RotationFinding turn = RotationSearch.of(sample.ticks());
    return new ClickCalibration(
        domain,
        thresholds,
        starts,
        spreads,
        rates,
        scales,
        alarms.perMinute(),
        seconds,
        alarms,
        turn.found() ? turn.turnSeconds() : null,
        null);
  }
}
