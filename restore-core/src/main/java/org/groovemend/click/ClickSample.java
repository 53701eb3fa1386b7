package org.groovemend.click;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.groovemend.rotation.TickGatherer;
import org.groovemend.signal.robust.Median;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.SegmentWindow;

/** What the detector meets in the pieces of a side that are examined before it is treated. */
final class ClickSample {
  /** Log odds from which a place is a tick that may tell the turntable's speed. */
  private static final double SURE = 3;

  private final Channel[] channels;
  private final ShapeSample shapes = new ShapeSample();
  private final TickGatherer ticks;
  private final List<List<Occupied>> occupied = new ArrayList<>();
  private final ClickGeometry g;
  private final int rate;
  private long frames;

  private ClickSample(ClickGeometry g, int channelCount, int rate) {
    this.g = g;
    this.rate = rate;
    this.ticks = new TickGatherer(rate);
    this.channels = new Channel[channelCount];
    for (int c = 0; c < channelCount; c++) {
      channels[c] = new Channel();
    }
  }

  /**
   * Looks at the pieces, as many at once as there are hands; the same whatever their number.
   *
   * @throws IOException if the side cannot be read
   */
  static ClickSample of(
      RangeReader side, SampledPieces pieces, ClickGeometry g, RepairDomain domain, Crew crew)
      throws IOException {
    int channelCount = side.format().channels();
    ClickSample sample = new ClickSample(g, channelCount, side.format().sampleRateHz());
    int hands = Math.min(crew.hands(), pieces.count());
    ClickDetector[] detectors = new ClickDetector[hands];
    for (int h = 0; h < hands; h++) {
      detectors[h] = new ClickDetector(g, domain, side.format());
    }
    for (int i = 0; i < pieces.count(); i += hands) {
      int count = Math.min(hands, pieces.count() - i);
      SegmentWindow[] windows = new SegmentWindow[count];
      List<List<List<Candidate>>> found = new ArrayList<>();
      Runnable[] looks = new Runnable[count];
      for (int h = 0; h < count; h++) {
        SegmentWindow window = pieces.window(side, i + h);
        ClickDetector detector = detectors[h];
        List<List<Candidate>> here = new ArrayList<>();
        windows[h] = window;
        found.add(here);
        looks[h] =
            () -> {
              detector.load(window);
              for (int c = 0; c < channelCount; c++) {
                here.add(detector.candidates(c, window.segmentStart(), window.segmentEnd()));
              }
            };
      }
      crew.share(List.of(looks));
      for (int h = 0; h < count; h++) {
        sample.add(windows[h], found.get(h), detectors[h]);
      }
    }
    return sample;
  }

  private void add(SegmentWindow window, List<List<Candidate>> found, ClickDetector detector) {
    shapes.add(found, detector);
    for (int c = 0; c < channels.length; c++) {
      long end = Long.MIN_VALUE;
      for (Candidate k : found.get(c)) {
        channels[c].add(k.logOdds(), k.start() < end + g.order());
        channels[c].addScale(k.scale());
        end = Math.max(end, k.end());
      }
    }
    found.stream()
        .flatMap(List::stream)
        .filter(k -> k.logOdds() > SURE)
        .filter(k -> k.start() >= window.segmentStart() && k.start() < window.segmentEnd())
        .sorted(Comparator.comparingLong(Candidate::start))
        .forEach(k -> ticks.add(k.start(), k.logOdds()));
    occupied.add(
        found.stream()
            .flatMap(List::stream)
            .filter(k -> k.logOdds() > 0)
            .map(k -> new Occupied(k.start(), k.end()))
            .toList());
    frames += window.segmentEnd() - window.segmentStart();
  }

  Channel[] channels() {
    return channels;
  }

  ShapeSample shapes() {
    return shapes;
  }

  TickGatherer ticks() {
    return ticks;
  }

  /** By piece: places that may be damage. */
  List<List<Occupied>> occupied() {
    return occupied;
  }

  double seconds() {
    return frames / (double) rate;
  }

  /** What was met in one channel. */
  static final class Channel {
    double[] statistics = new double[64];
    private double[] scales = new double[64];
    int count;
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
