package org.groovemend.click;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.LeftAlone;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SegmentWindow;

/**
 * One thread's share of the work: candidates, decision, fill, and the removed pulse back through
 * the curve.
 */
final class ClickWorker implements RepairStage.Worker {
  /**
   * Times the gaps are filled, each time among the fills of the last; looks are taken between. More
   * than three add little (0.3 dB on dense crackle).
   */
  static final int PASSES = 3;

  private final ClickParameters parameters;
  private final AudioFormat format;
  private final ClickGeometry geometry;
  private final RepairDomain domain;
  private final ClickDetector detector;
  private final ClickDecision decision;
  private final ClickInterpolator interpolator;
  private final LongPlaces longPlaces;
  private final double[] fill;
  private final RemovedPulse removed;
  private final double[][] guess;
  private final boolean[][] unknown;

  ClickWorker(
      ClickParameters p, ClickCalibration calibration, CaptureCurve captured, AudioFormat format) {
    this.parameters = p;
    this.format = format;
    this.geometry = ClickGeometry.of(p, format.sampleRateHz());
    this.domain = RepairDomain.of(captured, format.sampleRateHz());
    this.detector = new ClickDetector(geometry, domain, format);
    this.decision = new ClickDecision(calibration, geometry, format.sampleRateHz());
    this.interpolator = new ClickInterpolator(geometry, p.repairRounds());
    this.longPlaces =
        new LongPlaces(geometry, format.sampleRateHz(), domain.floor(format.quantumStep()));
    this.fill = new double[interpolator.longestGap()];
    this.removed =
        new RemovedPulse(
            domain,
            format,
            interpolator.longestGap(),
            StrictMath.pow(10, p.quietestRepairDbfs() / 20));
    this.guess = new double[format.channels()][0];
    this.unknown = new boolean[format.channels()][0];
  }

  @Override
  public List<Repair> repair(SegmentWindow w) {
    List<Repair> repairs = new ArrayList<>();
    longPlaces.clear();
    if (parameters.isNeutral() || w.length() == 0) {
      return repairs;
    }
    detector.load(w);
    int reach = geometry.reach();
    int channels = w.channels();
    long around = geometry.lastReach() + (PASSES - 1L) * reach;
    List<List<Gap>> gaps = look(channels, w.segmentStart() - around, w.segmentEnd() + around);
    for (int pass = 1; pass < PASSES; pass++) {
      around -= reach;
      long from = w.segmentStart() - around;
      long to = w.segmentEnd() + around;
      DenseBlocks dense = new DenseBlocks(gaps, geometry.hop(), from, to);
      for (int c = 0; c < channels; c++) {
        gaps.set(c, fillRoughly(c, gaps.get(c), dense, from, to));
      }
      lookAgain(gaps, from + geometry.hop(), to - geometry.hop());
    }
    for (int c = 0; c < channels; c++) {
      mark(c, gaps.get(c));
    }
    for (int c = 0; c < channels; c++) {
      longPlaces.find(w, c, detector, gaps.get(c));
      fillForGood(w, c, gaps.get(c), repairs);
    }
    repairs.sort(
        (p, q) ->
            p.start() != q.start()
                ? Long.compare(p.start(), q.start())
                : p.channel() - q.channel());
    return repairs;
  }

  @Override
  public List<LeftAlone> leftAlone() {
    return longPlaces.ofSegment();
  }

  private List<List<Gap>> look(int channels, long from, long to) {
    List<List<Candidate>> candidates = new ArrayList<>();
    for (int c = 0; c < channels; c++) {
      candidates.add(detector.candidates(c, from, to));
    }
    List<List<Gap>> gaps = decision.gaps(candidates, List.of(), detector, from, to);
    for (int c = 0; c < channels; c++) {
      takeOver(c, gaps.get(c));
    }
    return gaps;
  }

  private void takeOver(int c, List<Gap> gaps) {
    double[] clean = detector.clean(c);
    for (Gap g : gaps) {
      for (Candidate k : g.places()) {
        System.arraycopy(k.fill(), 0, clean, detector.index(k.start()), k.length());
      }
    }
  }

  private void lookAgain(List<List<Gap>> gaps, long from, long to) {
    List<List<Candidate>> candidates = new ArrayList<>();
    DenseBlocks dense = new DenseBlocks(gaps, geometry.hop(), from, to);
    for (int c = 0; c < gaps.size(); c++) {
      candidates.add(detector.candidates(c, from, to, dense));
    }
    List<List<Gap>> more = decision.gaps(candidates, gaps, detector, from, to);
    for (int c = 0; c < gaps.size(); c++) {
      takeOver(c, more.get(c));
      List<Gap> all = new ArrayList<>(gaps.get(c));
      all.addAll(more.get(c));
      all.sort((p, q) -> Long.compare(p.start(), q.start()));
      gaps.set(c, decision.merged(all));
    }
  }

  /** First guesses, and which samples are guessed. */
  private void mark(int channel, List<Gap> gaps) {
    double[] clean = detector.clean(channel);
    if (guess[channel].length != clean.length) {
      guess[channel] = new double[clean.length];
      unknown[channel] = new boolean[clean.length];
    }
    System.arraycopy(clean, 0, guess[channel], 0, clean.length);
    Arrays.fill(unknown[channel], false);
    for (Gap g : gaps) {
      Arrays.fill(unknown[channel], detector.index(g.start()), detector.index(g.filledTo()), true);
    }
  }

  /** Where a gap may grow to: the next one, or the end. */
  private int limit(List<Gap> gaps, int i, int channel) {
    return i + 1 < gaps.size()
        ? detector.index(gaps.get(i + 1).start())
        : detector.flat(channel).length;
  }

  /**
   * Fills the gaps of dense places that begin in [from, to) in the clean signal, where the others
   * keep the detector's fill; returns them with their fills.
   */
  private List<Gap> fillRoughly(
      int channel, List<Gap> gaps, DenseBlocks dense, long from, long to) {
    double[] flat = detector.flat(channel);
    double[] clean = detector.clean(channel);
    mark(channel, gaps);
    List<Gap> filled = new ArrayList<>();
    for (int i = 0; i < gaps.size(); i++) {
      Gap g = gaps.get(i);
      boolean there = g.start() >= from && g.start() < to;
      if (!there || !dense.test(g.start()) || g.frames() > geometry.longest()) {
        filled.add(g);
        continue;
      }
      int start = detector.index(g.start());
      int end = detector.index(g.end());
      int last = detector.index(g.filledTo());
      reopen(channel, end, last);
      int count =
          interpolator.roughly(
              guess[channel],
              unknown[channel],
              start,
              end,
              limit(gaps, i, channel),
              detector.validFrom(),
              detector.validTo(),
              fill);
      // the others are filled from what the last pass left
      Arrays.fill(unknown[channel], end, last, true);
      System.arraycopy(clean, end, guess[channel], end, last - end);
      filled.add(count > 0 ? g.filled(Arrays.copyOf(fill, count)) : g);
    }
    for (Gap g : filled) {
      if (g.fill() != null) {
        int start = detector.index(g.start());
        System.arraycopy(flat, start, clean, start, (int) (g.filledTo() - g.start()));
        System.arraycopy(g.fill(), 0, clean, start, g.fill().length);
      }
    }
    return decision.merged(filled);
  }

  /** Takes the samples past a gap's end for sound again, so that its extent is found anew. */
  private void reopen(int channel, int end, int last) {
    Arrays.fill(unknown[channel], end, last, false);
    System.arraycopy(detector.flat(channel), end, guess[channel], end, last - end);
  }

  private void fillForGood(SegmentWindow w, int channel, List<Gap> gaps, List<Repair> repairs) {
    int other = w.channels() == 2 ? 1 - channel : -1;
    for (int i = 0; i < gaps.size(); i++) {
      Gap g = gaps.get(i);
      if (g.start() < w.segmentStart()
          || g.start() >= w.segmentEnd()
          || longPlaces.touch(channel, g)) {
        continue;
      }
      int start = detector.index(g.start());
      int end = detector.index(g.end());
      int last = detector.index(g.filledTo());
      reopen(channel, end, last);
      int count =
          interpolator.fill(
              guess[channel],
              unknown[channel],
              other < 0 ? null : guess[other],
              other < 0 ? null : unknown[other],
              start,
              end,
              limit(gaps, i, channel),
              detector.validFrom(),
              detector.validTo(),
              fill);
      Arrays.fill(unknown[channel], end, last, true);
      System.arraycopy(detector.clean(channel), end, guess[channel], end, last - end);
      if (count > 0) {
        addRepair(w, channel, gaps, i, start, count, repairs);
      }
    }
  }

  /** Whether no other gap is so near that its damage would be seen with this one's. */
  private boolean alone(List<Gap> gaps, int i) {
    int near = removed.close();
    return (i == 0 || gaps.get(i - 1).filledTo() + 4L * near < gaps.get(i).start())
        && (i + 1 == gaps.size() || gaps.get(i).filledTo() + near < gaps.get(i + 1).start());
  }

  private void addRepair(
      SegmentWindow w, int channel, List<Gap> gaps, int i, int start, int m, List<Repair> repairs) {
    Gap g = gaps.get(i);
    double[] flat = detector.flat(channel);
    int most = (int) Math.min(removed.longest(), w.sideFrames() - g.start());
    double[] pulse = removed.begin();
    for (int n = 0; n < m; n++) {
      pulse[n] = flat[start + n] - fill[n];
    }
    double[] result = removed.throughCurve(m, most);
    double error = Math.sqrt(interpolator.meanSquareError());
    boolean aided = interpolator.aided();
    int order = interpolator.order();
    if (alone(gaps, i) && !removed.plausible(w, channel, g.start(), m, result)) {
      // damage next to the gap can make a high order swing: the detector's own fill does not
      aided = false;
      order = geometry.order();
      pulse = removed.begin();
      for (Candidate k : g.places()) {
        int from = detector.index(k.start());
        for (int n = 0; n < k.length(); n++) {
          pulse[from - start + n] = flat[from + n] - k.fill()[n];
        }
      }
      result = removed.throughCurve(m, most);
      if (!removed.plausible(w, channel, g.start(), m, result)) {
        return;
      }
    }
    if (result.length == 0) {
      return; // nobody would hear it
    }
    repairs.add(
        new Repair(
            channel,
            g.start(),
            result,
            new Repair.Evidence(
                g.statistic(),
                g.threshold(),
                aided ? "lsar-other-wall" : "lsar",
                order,
                g.start(),
                m,
                20 * StrictMath.log10(error))));
  }
}
