package org.groovemend.click;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.RecursiveFilter;
import org.groovemend.stage.CaptureCurve;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SegmentWindow;

/**
 * One thread's share of the work: candidates, decision, fill, and the removed pulse back through
 * the curve.
 */
final class ClickWorker implements RepairStage.Worker {
  /** Quiet stretch, in seconds, after which a removed tail is taken to have ended. */
  private static final double QUIET_SECONDS = 0.001;

  private final ClickParameters parameters;
  private final AudioFormat format;
  private final ClickGeometry geometry;
  private final RepairDomain domain;
  private final ClickDetector detector;
  private final ClickDecision decision;
  private final ClickInterpolator interpolator;
  private final double[] fill;
  private final double[] pulse;
  private final double[] tail;
  private double[][] guess = new double[0][];
  private boolean[][] unknown = new boolean[0][];

  ClickWorker(
      ClickParameters p, ClickCalibration calibration, CaptureCurve captured, AudioFormat format) {
    this.parameters = p;
    this.format = format;
    this.geometry = ClickGeometry.of(p, format.sampleRateHz());
    this.domain = RepairDomain.of(captured, format.sampleRateHz());
    this.detector = new ClickDetector(geometry, domain, format);
    this.decision = new ClickDecision(calibration, geometry);
    this.interpolator = new ClickInterpolator(geometry, p.repairRounds());
    this.fill = new double[interpolator.longestGap()];
    int reach = interpolator.longestGap() + format.sampleRateHz() / 4;
    this.pulse = new double[reach];
    this.tail = new double[reach];
  }

  @Override
  public List<Repair> repair(SegmentWindow w) {
    List<Repair> repairs = new ArrayList<>();
    if (parameters.isNeutral() || w.length() == 0) {
      return repairs;
    }
    detector.load(w);
    long from = w.segmentStart() - geometry.margin();
    long to = w.segmentEnd() + geometry.margin();
    List<List<Candidate>> candidates = new ArrayList<>();
    for (int c = 0; c < w.channels(); c++) {
      candidates.add(detector.candidates(c, from, to));
    }
    List<List<Gap>> gaps = decision.gaps(candidates, detector);
    guess(gaps);
    for (int c = 0; c < w.channels(); c++) {
      fillChannel(w, c, gaps.get(c), repairs);
    }
    repairs.sort(
        (p, q) ->
            p.start() != q.start()
                ? Long.compare(p.start(), q.start())
                : p.channel() - q.channel());
    return repairs;
  }

  /** First fills of all channels, since each may be asked about the others. */
  private void guess(List<List<Gap>> gaps) {
    int length = detector.flat(0).length;
    if (guess.length != gaps.size() || guess[0].length != length) {
      guess = new double[gaps.size()][length];
      unknown = new boolean[gaps.size()][length];
    }
    for (int c = 0; c < gaps.size(); c++) {
      System.arraycopy(detector.flat(c), 0, guess[c], 0, length);
      Arrays.fill(unknown[c], false);
      for (Gap g : gaps.get(c)) {
        int at = detector.index(g.start());
        Arrays.fill(unknown[c], at, at + g.frames(), true);
        Candidate k = g.strongest();
        System.arraycopy(k.fill(), 0, guess[c], detector.index(k.start()), k.length());
      }
    }
  }

  private void fillChannel(SegmentWindow w, int channel, List<Gap> gaps, List<Repair> repairs) {
    double[] flat = detector.flat(channel);
    int other = guess.length == 2 ? 1 - channel : -1;
    for (Gap g : gaps) {
      if (g.start() < w.segmentStart()
          || g.start() >= w.segmentEnd()
          || g.frames() > geometry.longest()) {
        continue;
      }
      int start = detector.index(g.start());
      int end = detector.index(g.end());
      int filled =
          interpolator.fill(
              guess[channel],
              unknown[channel],
              other < 0 ? null : guess[other],
              other < 0 ? null : unknown[other],
              start,
              end,
              true,
              detector.validFrom(),
              detector.validTo(),
              fill);
      if (filled > 0) {
        addRepair(w, channel, g, flat, start, filled, repairs);
      }
    }
  }

  private void addRepair(
      SegmentWindow w, int channel, Gap g, double[] flat, int start, int m, List<Repair> repairs) {
    int most = (int) Math.min(tail.length, w.sideFrames() - g.start());
    Arrays.fill(pulse, 0);
    for (int i = 0; i < m; i++) {
      pulse[i] = flat[start + i] - fill[i];
    }
    int length = m;
    double[] removed = pulse;
    RecursiveFilter forward = domain.forward();
    if (forward != null) {
      removed = tail;
      length = equalise(forward, m, most);
    }
    while (length > 0 && removed[length - 1] == 0) {
      length--;
    }
    if (length == 0) {
      return; // the fill is what was there
    }
    double[] result = Arrays.copyOf(removed, length);
    double error = Math.sqrt(interpolator.meanSquareError());
    repairs.add(
        new Repair(
            channel,
            g.start(),
            result,
            new Repair.Evidence(
                g.statistic(),
                g.threshold(),
                interpolator.aided() ? "lsar-other-wall" : "lsar",
                interpolator.order(),
                g.start(),
                m,
                20 * StrictMath.log10(error))));
  }

  /**
   * Sends the pulse forward through the curve until it stays under half an output step; returns the
   * length.
   */
  private int equalise(RecursiveFilter forward, int m, int most) {
    double step = Math.max(format.quantumStep(), 0x1p-24) / 2;
    int quiet = (int) (QUIET_SECONDS * format.sampleRateHz());
    int done = 0;
    int last = m - 1;
    while (done < most) {
      int next = Math.min(most, done + quiet);
      forward.run(pulse, tail, 0, done, next);
      for (int n = done; n < next; n++) {
        if (Math.abs(tail[n]) >= step) {
          last = n;
        }
      }
      done = next;
      if (done > m + quiet && done > last + quiet) {
        break;
      }
    }
    return Math.min(most, last + 1);
  }
}
