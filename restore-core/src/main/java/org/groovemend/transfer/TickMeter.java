package org.groovemend.transfer;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.rotation.TickGatherer;

/**
 * Counts short pulses over the whole side, quickly: places where the second difference of a wall
 * stands {@value #TIMES} times above its running mean. Far simpler than the detector of the clicks
 * stage, which hears a sample of the side only; its count is for comparing, the places are for the
 * picture of the disc and for what recurs once a turn.
 */
public final class TickMeter implements BlockMeter {

  /** Height above the running mean of magnitudes that is a tick (set on music without ticks). */
  static final double TIMES = 20;

  /** Ticks nearer than this are one. */
  private static final double TOGETHER_SECONDS = 0.002;

  private static final double MEMORY_SECONDS = 0.02;

  /** A magnitude enters the running mean as no more than this many times it. */
  private static final double MOST = 8;

  /**
   * Sizes of ticks by their largest second difference, dB re full scale: small below, large above.
   */
  public static final double SMALL_DBFS = -40;

  public static final double LARGE_DBFS = -20;

  private static final int MOST_PLACES = 200_000;

  private final double forget;
  private final long warm;
  private final long together;
  private final Wall[] walls;
  private final TickGatherer gatherer;
  private final int rate;

  /** Places of the picture: frame and strength. */
  private final List<Place> places = new ArrayList<>();

  /** A tick of one wall. */
  public record Place(long frame, double times) {}

  private long position;

  private static final class Wall {
    double before;
    double beforeThat;
    double mean;
    long seen;
    long at;
    long last = Long.MIN_VALUE / 2;
    double most;
    double times;
    final long[] bySize = new long[3];
    boolean open;
  }

  public TickMeter(int sampleRateHz, int channels) {
    rate = sampleRateHz;
    forget = 1 / (MEMORY_SECONDS * sampleRateHz);
    warm = (long) (MEMORY_SECONDS * sampleRateHz);
    together = Math.max(1, (long) (TOGETHER_SECONDS * sampleRateHz));
    gatherer = new TickGatherer(sampleRateHz);
    walls = new Wall[channels];
    for (int c = 0; c < channels; c++) {
      walls[c] = new Wall();
    }
  }

  @Override
  public void accept(long[][] words, double[][] samples, int count) {
    // pieces short enough that ticks of both walls come in the order of time
    for (int done = 0; done < count; ) {
      int n = (int) Math.min(count - done, together - position % together);
      for (int c = 0; c < walls.length; c++) {
        scan(walls[c], samples[c], done, n);
      }
      position += n;
      done += n;
      if (position % together == 0) {
        give();
      }
    }
  }

  private void scan(Wall w, double[] x, int from, int n) {
    double a = w.before;
    double b = w.beforeThat;
    double mean = w.mean;
    for (int i = from; i < from + n; i++) {
      double d = Math.abs(x[i] - 2 * a + b);
      b = a;
      a = x[i];
      if (d > TIMES * mean && d > 0 && w.seen >= warm) {
        tick(w, position + i - from, d, d / mean);
      }
      // a plain mean to begin with, in which nothing is too much
      if (w.seen < warm) {
        mean += (d - mean) / ++w.seen;
      } else {
        // not Math.min, which minds signed zeros and is many times slower
        double most = MOST * mean + 1e-9;
        mean += forget * ((d < most ? d : most) - mean);
      }
    }
    w.before = a;
    w.beforeThat = b;
    w.mean = mean;
  }

  private void tick(Wall w, long frame, double height, double times) {
    if (frame - w.last > together && !w.open) {
      w.most = 0;
      w.times = 0;
      w.open = true;
    }
    w.last = frame;
    w.most = Math.max(w.most, height);
    if (times > w.times) {
      w.times = times;
      w.at = frame;
    }
  }

  /** Counts what began in the piece that ends here. */
  private void give() {
    double strongest = 0;
    long frame = 0;
    for (Wall w : walls) {
      if (!w.open) {
        continue;
      }
      w.open = false;
      double db = 20 * StrictMath.log10(w.most);
      w.bySize[db < SMALL_DBFS ? 0 : db < LARGE_DBFS ? 1 : 2]++;
      if (w.times > strongest) {
        strongest = w.times;
        frame = w.at;
      }
    }
    if (strongest > 0) {
      gatherer.add(frame, StrictMath.log(strongest));
      if (places.size() < MOST_PLACES) {
        places.add(new Place(frame, StrictMath.log(strongest)));
      }
    }
  }

  /** After the last block. */
  public Ticks finish() {
    give();
    List<List<Long>> bySize = new ArrayList<>();
    for (Wall w : walls) {
      bySize.add(List.of(w.bySize[0], w.bySize[1], w.bySize[2]));
    }
    return new Ticks(position / (double) rate, bySize);
  }

  /** For the speed of the turntable; at its end after that. */
  public TickGatherer gatherer() {
    return gatherer;
  }

  /** Places of both walls together, in order, at most {@value #MOST_PLACES}. */
  public List<Place> places() {
    return List.copyOf(places);
  }
}
