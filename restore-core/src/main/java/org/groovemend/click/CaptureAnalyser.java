package org.groovemend.click;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.PlaybackCurve;
import org.groovemend.playback.PlaybackFilter;
import org.groovemend.playback.RecursiveFilter;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.SegmentWindow;

/** Tells from a side's own clicks whether it was captured through the playback curve. */
public final class CaptureAnalyser {
  /** Log odds of damage that a place needs to have a say, and to be in the way of another. */
  private static final double SAY = 3;

  private static final double IN_THE_WAY = 1;
  private static final double FILLED = 0;
  private static final double LEAST_ALONE_SECONDS = 0.001;

  /** Shorter sides do not hold what must be seen about one click. */
  private static final double SHORTEST_SECONDS = 0.15;

  private static final double LEAST_APART_SECONDS = 0.0002;

  /** How long the tail of a click is followed: 19 time constants. */
  private static final double TAIL_SECONDS = 0.06;

  private final ClickDetector asItIs;
  private final ClickDetector undone;
  private final RecursiveFilter curve;
  private final CurveEvidence evidence;
  private final CaptureTally tally = new CaptureTally();
  private final int rate;
  private final Crew crew;

  private CaptureAnalyser(RangeReader side, ClickGeometry g, Crew crew) {
    this.crew = crew;
    rate = side.format().sampleRateHz();
    asItIs = new ClickDetector(g, RepairDomain.of(CaptureCurve.FLAT, rate), side.format());
    undone = new ClickDetector(g, RepairDomain.of(CaptureCurve.RIAA, rate), side.format());
    curve = PlaybackFilter.design(PlaybackCurve.MICROGROOVE, rate).forward();
    evidence = new CurveEvidence(curve, rate);
  }

  /**
   * Looks at pieces all over the side, at most about 60 s, until the clicks in them leave no doubt.
   *
   * @throws IOException if the side cannot be read
   */
  public static CaptureFinding analyse(RangeReader side, ClickParameters p) throws IOException {
    return analyse(side, p, SampledPieces.SECONDS, Crew.alone());
  }

  /**
   * The same from less of the side, two hands at once.
   *
   * @param seconds most that are looked at
   * @throws IOException if the side cannot be read
   */
  public static CaptureFinding analyse(
      RangeReader side, ClickParameters p, double seconds, Crew crew) throws IOException {
    int sampleRate = side.format().sampleRateHz();
    ClickGeometry g = ClickGeometry.of(p, sampleRate);
    if (side.frames() < SHORTEST_SECONDS * sampleRate) {
      return new CaptureTally().finding(0);
    }
    CaptureAnalyser analyser = new CaptureAnalyser(side, g, crew);
    SampledPieces pieces = new SampledPieces(side.frames(), g, sampleRate, seconds);
    long frames = 0;
    int stride = stride(pieces.count());
    for (int i = 0, at = 0; i < pieces.count() && !analyser.tally.settled(); i++) {
      SegmentWindow window = pieces.window(side, at);
      analyser.look(window);
      frames += window.segmentEnd() - window.segmentStart();
      at = (at + stride) % pieces.count();
    }
    return analyser.tally.finding(frames / (double) sampleRate);
  }

  /** Near the golden section and without a factor in common: pieces looked at lie far apart. */
  private static int stride(int count) {
    int stride = Math.max(1, (int) (0.618 * count));
    while (stride > 1 && gcd(stride, count) != 1) {
      stride--;
    }
    return stride;
  }

  private static int gcd(int a, int b) {
    return b == 0 ? a : gcd(b, a % b);
  }

  private void look(SegmentWindow window) {
    List<List<Candidate>> flat = new ArrayList<>();
    List<List<Candidate>> curved = new ArrayList<>();
    crew.share(List.of(() -> seek(asItIs, window, flat), () -> seek(undone, window, curved)));
    List<CaptureTally.Heard> heard = new ArrayList<>();
    for (int c = 0; c < window.channels(); c++) {
      List<Place> places = places(flat.get(c), curved.get(c));
      double[] filled = Arrays.copyOf(window.samples()[c], window.length());
      for (Place k : places) {
        k.removeFrom(filled, window.firstFrame());
      }
      for (int i = 0; i < places.size(); i++) {
        double ratio = weigh(places, i, filled, window.firstFrame());
        if (!Double.isNaN(ratio)) {
          heard.add(new CaptureTally.Heard(places.get(i).start(), places.get(i).size(), ratio));
        }
      }
    }
    tally.add(heard, rate / 1000);
  }

  private static void seek(
      ClickDetector detector, SegmentWindow window, List<List<Candidate>> into) {
    detector.load(window);
    for (int c = 0; c < window.channels(); c++) {
      into.add(detector.candidates(c, window.segmentStart(), window.segmentEnd()));
    }
  }

  /**
   * Places that lie apart, sought in the signal and in the signal with the curve undone: where a
   * click is short it is told from music best, and neither kind of side is to be favoured. Of two
   * that touch the likelier one counts.
   */
  private List<Place> places(List<Candidate> flat, List<Candidate> curved) {
    List<Place> all = new ArrayList<>();
    add(flat, asItIs, all);
    add(curved, undone, all);
    all.sort(
        Comparator.comparingLong(Place::start)
            .thenComparingInt(Place::length)
            .thenComparingDouble(Place::logOdds));
    List<Place> places = new ArrayList<>();
    for (Place k : all) {
      int last = places.size() - 1;
      if (last >= 0 && k.start() < places.get(last).end() + LEAST_APART_SECONDS * rate) {
        if (k.logOdds() > places.get(last).logOdds()) {
          places.set(last, k);
        }
      } else {
        places.add(k);
      }
    }
    return places;
  }

  private void add(List<Candidate> found, ClickDetector detector, List<Place> to) {
    for (Candidate k : found) {
      if (k.logOdds() >= FILLED) {
        to.add(place(k, detector));
      }
    }
  }

  private Place place(Candidate k, ClickDetector detector) {
    double[] x = detector.flat(k.channel());
    boolean flat = detector == asItIs;
    double[] removed = new double[flat ? k.length() : k.length() + (int) (TAIL_SECONDS * rate)];
    double peak = 0;
    for (int i = 0; i < k.length(); i++) {
      removed[i] = x[detector.index(k.start()) + i] - k.fill()[i];
      peak = Math.max(peak, Math.abs(removed[i]));
    }
    if (!flat) {
      double[] pulse = removed.clone();
      curve.fromRest(pulse, removed, 0, removed.length);
    }
    return new Place(k.start(), k.length(), k.logOdds(), peak / k.scale(), removed);
  }

  private double weigh(List<Place> places, int i, double[] filled, long firstFrame) {
    Place k = places.get(i);
    int at = (int) (k.start() - firstFrame);
    int first = at - evidence.before();
    int end = at + evidence.after();
    if (k.logOdds() < SAY
        || first < 0
        || end > filled.length
        || (i > 0 && k.start() - places.get(i - 1).end() < LEAST_ALONE_SECONDS * rate)) {
      return Double.NaN;
    }
    double[] about = Arrays.copyOfRange(filled, first, end);
    k.putBackInto(about, firstFrame + first);
    long next = firstFrame + end;
    for (int j = i + 1; j < places.size() && places.get(j).start() < next; j++) {
      if (places.get(j).logOdds() > IN_THE_WAY) {
        next = places.get(j).start();
      }
    }
    return evidence.weigh(about, at - first, k.length(), (int) (next - firstFrame) - first);
  }

  /**
   * A place that may be a click.
   *
   * @param size peak over the deviation of the prediction error there
   * @param removed what the fill takes away from the signal, from the start on
   */
  private record Place(long start, int length, double logOdds, double size, double[] removed) {
    long end() {
      return start + length;
    }

    void removeFrom(double[] x, long firstFrame) {
      add(-1, x, firstFrame);
    }

    void putBackInto(double[] x, long firstFrame) {
      add(1, x, firstFrame);
    }

    private void add(int sign, double[] x, long firstFrame) {
      int at = (int) (start - firstFrame);
      for (int i = Math.max(0, -at); i < Math.min(removed.length, x.length - at); i++) {
        x[at + i] += sign * removed[i];
      }
    }
  }
}
