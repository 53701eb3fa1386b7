package org.groovemend.click;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.playback.PlaybackCurve;
import org.groovemend.playback.PlaybackFilter;
import org.groovemend.stage.CaptureCurve;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.SegmentWindow;

/** Tells from a side's own clicks whether it was captured through the playback curve. */
public final class CaptureAnalyser {
  /** Log odds of damage that a place needs to have a say, and to be in the way of another. */
  private static final double SAY = 3;

  private static final double IN_THE_WAY = 1;
  private static final double FILLED = 0;
  private static final double LEAST_ALONE_SECONDS = 0.001;

  private final ClickDetector detector;
  private final CurveEvidence evidence;
  private final CaptureTally tally = new CaptureTally();
  private final int rate;

  private CaptureAnalyser(RangeReader side, ClickGeometry g) {
    rate = side.format().sampleRateHz();
    detector = new ClickDetector(g, RepairDomain.of(CaptureCurve.FLAT, rate), side.format());
    evidence =
        new CurveEvidence(PlaybackFilter.design(PlaybackCurve.MICROGROOVE, rate).forward(), rate);
  }

  /**
   * Looks at pieces all over the side, at most about 60 s, until the clicks in them leave no doubt.
   *
   * @throws IOException if the side cannot be read
   */
  public static CaptureFinding analyse(RangeReader side, ClickParameters p) throws IOException {
    int sampleRate = side.format().sampleRateHz();
    ClickGeometry g = ClickGeometry.of(p, sampleRate);
    CaptureAnalyser analyser = new CaptureAnalyser(side, g);
    SampledPieces pieces = new SampledPieces(side.frames(), g, sampleRate);
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
    detector.load(window);
    List<CaptureTally.Heard> heard = new ArrayList<>();
    for (int c = 0; c < window.channels(); c++) {
      List<Candidate> places = places(c, window);
      double[] x = detector.flat(c);
      double[] filled = x.clone();
      for (Candidate k : places) {
        System.arraycopy(k.fill(), 0, filled, detector.index(k.start()), k.length());
      }
      for (int i = 0; i < places.size(); i++) {
        double ratio = weigh(places, i, x, filled);
        if (!Double.isNaN(ratio)) {
          heard.add(new CaptureTally.Heard(places.get(i).start(), ratio));
        }
      }
    }
    tally.add(heard, rate / 1000);
  }

  /** Places that do not overlap, of which the likelier one counts. */
  private List<Candidate> places(int channel, SegmentWindow window) {
    List<Candidate> places = new ArrayList<>();
    for (Candidate k : detector.candidates(channel, window.segmentStart(), window.segmentEnd())) {
      if (k.logOdds() < FILLED) {
        continue;
      }
      int last = places.size() - 1;
      if (last >= 0 && k.start() < places.get(last).end()) {
        if (k.logOdds() > places.get(last).logOdds()) {
          places.set(last, k);
        }
      } else {
        places.add(k);
      }
    }
    return places;
  }

  private double weigh(List<Candidate> places, int i, double[] x, double[] filled) {
    Candidate k = places.get(i);
    int at = detector.index(k.start());
    int first = at - evidence.before();
    if (k.logOdds() < SAY
        || first < detector.validFrom()
        || at + evidence.after() > detector.validTo()
        || (i > 0 && k.start() - places.get(i - 1).end() < LEAST_ALONE_SECONDS * rate)) {
      return Double.NaN;
    }
    long next = Long.MAX_VALUE;
    for (int j = i + 1; j < places.size() && next == Long.MAX_VALUE; j++) {
      if (places.get(j).logOdds() > IN_THE_WAY) {
        next = places.get(j).start();
      }
    }
    double[] about = Arrays.copyOfRange(filled, first, at + evidence.after());
    System.arraycopy(x, at, about, at - first, k.length());
    long end = next == Long.MAX_VALUE ? about.length : next - k.start() + at - first;
    return evidence.weigh(about, at - first, k.length(), (int) Math.min(about.length, end));
  }
}
