package org.groovemend.click;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.SegmentWindow;

/**
 * Adds clicks of known size to working copies of a side and counts how many are found.
 *
 * <p>Each click is alone in its copy: added in the repair domain at a random place away from what
 * was found there already, sought by the detector and decided on as any other, taken out again. The
 * places are of stretches that were examined for the thresholds. Seeded: same side, same result.
 */
final class ClickTrials {
  /** Decibels, see {@link ClickRecall.Size}. */
  private static final double[] SIZES = {10, 16, 22, 28, 34, 40, 50, 60, 75};

  private static final int MOST_PER_SIZE = 24;

  /** So that a side of a second does not cost more to try than to treat. */
  private static final double PER_SIZE_AND_SECOND = 4;

  private static final int MOST_PIECES = 12;
  private static final int ATTEMPTS = 12;

  private final ClickDetector detector;
  private final ClickDecision decision;
  private final ClickGeometry g;
  private final LocalError error;
  private final double floor;
  private final Random random = new Random(2);
  private final int[] injected = new int[SIZES.length];
  private final int[] found = new int[SIZES.length];

  ClickTrials(ClickDetector detector, ClickDecision decision, ClickGeometry g, double floor) {
    this.detector = detector;
    this.decision = decision;
    this.g = g;
    this.error = new LocalError(g);
    this.floor = floor;
  }

  /**
   * Tries clicks in some of the pieces.
   *
   * @param occupied by piece: places that may be damage
   * @param shapes of the clicks, or empty for the standard ones
   */
  ClickRecall run(
      RangeReader side,
      SampledPieces pieces,
      List<List<Occupied>> occupied,
      List<ClickPulse> shapes)
      throws IOException {
    int channels = side.format().channels();
    double seconds = side.frames() / (double) side.format().sampleRateHz();
    int perSize = (int) Math.min(MOST_PER_SIZE, PER_SIZE_AND_SECOND * seconds);
    int used = Math.min(MOST_PIECES, pieces.count());
    int standard = 0;
    int done = 0;
    for (int i = 0; i < used; i++) {
      int which = i * pieces.count() / used;
      SegmentWindow w = pieces.window(side, which);
      detector.load(w);
      List<ClickPulse> pulses = shapes;
      if (shapes.isEmpty()) {
        pulses = StandardPulses.of(channels, side.format().sampleRateHz(), copied(w));
        standard = pulses.size();
      }
      int until = SIZES.length * perSize * (i + 1) / used;
      for (; done < until; done++) {
        ClickPulse pulse = pulses.get(random.nextInt(pulses.size()));
        attempt(w, occupied.get(which), pulse, done % SIZES.length);
      }
    }
    List<ClickRecall.Size> sizes = new ArrayList<>();
    for (int s = 0; s < SIZES.length; s++) {
      if (injected[s] > 0) {
        sizes.add(ClickRecall.Size.of(SIZES[s], injected[s], found[s]));
      }
    }
    return new ClickRecall(
        shapes.isEmpty() ? ClickRecall.STANDARD : ClickRecall.OF_SIDE,
        shapes.isEmpty() ? standard : shapes.size(),
        sizes);
  }

  private static boolean copied(SegmentWindow w) {
    if (w.channels() != 2) {
      return false;
    }
    double sum = 0;
    double apart = 0;
    for (int n = 0; n < w.length(); n++) {
      double left = w.samples()[0][n];
      double right = w.samples()[1][n];
      sum += left * left + right * right;
      apart += (left - right) * (left - right);
    }
    return apart < 1e-6 * sum;
  }

  private void attempt(SegmentWindow w, List<Occupied> occupied, ClickPulse pulse, int size) {
    int margin = g.window();
    long from = Math.max(w.segmentStart(), margin);
    long room = Math.min(w.segmentEnd(), w.sideFrames() - margin) - pulse.length() - from;
    if (room <= 0) {
      return;
    }
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      long start = from + (long) (random.nextDouble() * room);
      if (free(start, start + pulse.length(), occupied)
          && reachable(start)
          && inject(start, pulse, size)) {
        return;
      }
    }
  }

  private boolean reachable(long start) {
    int at = detector.index(start);
    return at - g.window() >= detector.validFrom() && at + g.window() <= detector.validTo();
  }

  /**
   * Not on a place that may be damaged, but as near to one as may be: clicks of a crackling side
   * hide one another.
   */
  private boolean free(long start, long end, List<Occupied> occupied) {
    int distance = g.order();
    return occupied.stream()
        .noneMatch(place -> place.start() < end + distance && place.end() > start - distance);
  }

  /**
   * @return false if there is no sound to hide a click in
   */
  private boolean inject(long start, ClickPulse pulse, int size) {
    int channels = pulse.walls().length;
    int at = detector.index(start);
    int wall = -1;
    double most = 0;
    for (int c = 0; c < channels; c++) {
      if (error.fit(detector.clean(c), at + pulse.length() / 2, floor)) {
        double ratio = error.ratio(pulse.walls()[c]);
        if (ratio > most) {
          most = ratio;
          wall = c;
        }
      }
    }
    if (wall < 0) {
      return false;
    }
    double gain = Math.sqrt(StrictMath.pow(10, SIZES[size] / 10) / most);
    if (random.nextBoolean()) {
      gain = -gain;
    }
    injected[size]++;
    if (sought(start, pulse, gain, at).get(wall).stream()
        .anyMatch(gap -> gap.start() < start + pulse.length() && gap.end() > start)) {
      found[size]++;
    }
    return true;
  }

  /** What is found about the pulse; the working copy is as before afterwards. */
  private List<List<Gap>> sought(long start, ClickPulse pulse, double gain, int at) {
    int channels = pulse.walls().length;
    int length = pulse.length();
    double[][] before = new double[channels][];
    for (int c = 0; c < channels; c++) {
      double[] clean = detector.clean(c);
      before[c] = Arrays.copyOfRange(clean, at, at + length);
      for (int n = 0; n < length; n++) {
        clean[at + n] += gain * pulse.walls()[c][n];
      }
    }
    List<List<Candidate>> candidates = new ArrayList<>();
    long from = start - g.order();
    long to = start + length + g.order();
    for (int c = 0; c < channels; c++) {
      candidates.add(detector.candidates(c, from, to));
    }
    List<List<Gap>> gaps = decision.gaps(candidates, List.of(), detector, from, to);
    for (int c = 0; c < channels; c++) {
      System.arraycopy(before[c], 0, detector.clean(c), at, length);
    }
    return gaps;
  }
}
