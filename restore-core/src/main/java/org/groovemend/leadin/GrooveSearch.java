package org.groovemend.leadin;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;

/** Looks through slices in the order given for the stretch that is groove alone and comes first. */
final class GrooveSearch {

  /** Shortest stretch taken, and the reference it grows from. */
  private static final double SHORTEST_SECONDS = 0.55;

  private static final double REFERENCE_SECONDS = 0.37;

  /**
   * Left out before what comes behind, against soft attacks and groove echo, and after what comes
   * before.
   */
  private static final double MARGIN_BEHIND_SECONDS = 0.18;

  private static final double MARGIN_BEFORE_SECONDS = 0.09;

  /**
   * Swing of the level allowed over a turn of the disc, in dB from the reference, beside four
   * standard deviations.
   */
  private static final double SWING_DB = 3.2;

  private static final double LONG_ENOUGH_SECONDS = 45;
  private static final double[] EDGES_HZ = {90, 200, 400, 800, 1600, 3200, 6400, 12800, 19000};

  private final AudioFormat format;
  private final double sliceSeconds;
  private final int[] edges;
  private final double[] scatterDb;
  private final LevelCensus census;
  private final ToneTest tones;

  GrooveSearch(AudioFormat format, int sliceFrames, int lines, LevelCensus census) {
    this.format = format;
    this.sliceSeconds = sliceFrames / (double) format.sampleRateHz();
    this.census = census;
    double lineHz = format.sampleRateHz() / (2.0 * (lines - 1));
    this.tones = new ToneTest(lineHz, lines);
    int[] e = new int[EDGES_HZ.length];
    int n = 0;
    for (double hz : EDGES_HZ) {
      int k = (int) Math.round(hz / lineHz);
      if (k < lines - 1) {
        e[n++] = Math.max(1, k);
      }
    }
    this.edges = Arrays.copyOf(e, n);
    this.scatterDb = new double[n - 1];
    for (int b = 0; b < n - 1; b++) {
      // a Hann line spreads over 1.5 lines; two to four blocks, one channel at the worst
      scatterDb[b] = 4.343 / Math.sqrt(3 * Math.max(1, (edges[b + 1] - edges[b]) / 1.5));
    }
  }

  /**
   * What was found.
   *
   * @param first first slice, in the order searched
   * @param last end, exclusive
   */
  record Result(
      boolean found, int first, int last, double confidence, String reason, double levelDbfs) {
    static Result none(String reason) {
      return new Result(false, 0, 0, 0, reason, Double.NaN);
    }
  }

  Result search(List<Slice> slices, long frames) {
    int n = slices.size();
    int shortest = (int) Math.ceil(SHORTEST_SECONDS / sliceSeconds);
    if (n < shortest) {
      return Result.none("the side is too short: " + inSeconds(format.seconds(frames)));
    }
    if (census.total() == 0) {
      return Result.none("the side holds no sound: its samples are zero or constant throughout");
    }
    double[][] band = new double[n][];
    for (int i = 0; i < n; i++) {
      band[i] = bands(slices.get(i));
    }
    int reference = Math.max(3, (int) Math.round(REFERENCE_SECONDS / sliceSeconds));
    String refusal = "no stretch of steady groove noise before the music";
    for (int start = 0; start + reference <= n; start++) {
      if (!steady(slices, band, start, start + reference, start, start + reference)) {
        continue;
      }
      int end = grow(slices, band, start, start + reference);
      int first = start + (start == 0 ? 0 : margin(MARGIN_BEFORE_SECONDS));
      int last = end == n ? end : end - margin(MARGIN_BEHIND_SECONDS);
      int toneFree = tones.toneFreeEnd(slices, first, last, reference);
      boolean tonal = toneFree < last;
      if (tonal) {
        last = toneFree - margin(MARGIN_BEHIND_SECONDS);
      }
      if (last - first < shortest) {
        refusal =
            tonal
                ? "the steady stretch at the start holds tones: music, not groove alone"
                : refusal;
        start = Math.max(start, end - reference); // nothing new before
        continue;
      }
      double level = level(slices, first, last);
      if (level < 1e-11) {
        start = end - 1;
        refusal = "only silence before the music, no groove noise";
        continue;
      }
      Result next = laterGroove(slices, band, end, level);
      if (next != null) {
        start = next.first() - 1;
        continue;
      }
      if (start * sliceSeconds > LONG_ENOUGH_SECONDS) {
        break;
      }
      double quieter = census.shareBelow(level * 0.4, start);
      if (quieter > 0.1) {
        refusal =
            String.format(
                Locale.ROOT,
                "the steady stretch at the start is no quiet groove: %.0f %% of the side is more than 4 dB quieter",
                100 * quieter);
        start = end - 1;
        continue;
      }
      return found(band, first, last, end, n, level);
    }
    return Result.none(refusal);
  }

  /**
   * A stretch before the needle drop (the noise of the equipment) is followed at once by a steady
   * louder one.
   */
  private Result laterGroove(List<Slice> slices, double[][] band, int end, double level) {
    int reference = Math.max(3, (int) Math.round(REFERENCE_SECONDS / sliceSeconds));
    int shortest = (int) Math.ceil(SHORTEST_SECONDS / sliceSeconds);
    int reach = (int) Math.ceil(1.5 / sliceSeconds);
    for (int s = end; s < end + reach && s + reference <= slices.size(); s++) {
      if (steady(slices, band, s, s + reference, s, s + reference)) {
        int e = grow(slices, band, s, s + reference);
        int toneFree = tones.toneFreeEnd(slices, s, e, reference);
        double louder = level(slices, s, e);
        if (toneFree == e
            && e - s >= 2 * shortest
            && louder > 4 * level
            && census.shareBelow(louder * 0.4, s) < 0.1) {
          return new Result(true, s, e, 0, "", 0);
        }
      }
    }
    return null;
  }

  private Result found(double[][] band, int first, int last, int end, int n, double level) {
    double[] mean = mean(band, first, last);
    double square = 0;
    for (int i = first; i < last; i++) {
      for (int b = 0; b < mean.length; b++) {
        double d = (band[i][b] - mean[b]) / (scatterDb[b] + 1.5);
        square += d * d;
      }
    }
    double unsteady = Math.sqrt(square / ((last - first) * (double) mean.length));
    double seconds = (last - first) * sliceSeconds;
    double rise = end >= n ? 0 : rise(band, mean, end);
    double confidence =
        Math.min(1, 0.4 + seconds / 2.5)
            * Math.min(1, 1.2 / Math.max(unsteady, 0.6))
            * (end >= n ? 0.7 : Math.min(1, 0.6 + rise / 25));
    String reason =
        String.format(
            Locale.ROOT,
            "%s of steady noise without tones%s",
            inSeconds(seconds),
            end >= n
                ? "; nothing else follows"
                : String.format(Locale.ROOT, "; then a rise of %.0f dB", Math.max(0, rise)));
    return new Result(
        true,
        first,
        last,
        Math.max(0.05, Math.min(1, confidence)),
        reason,
        10 * StrictMath.log10(level));
  }

  /** How far the strongest band rises within half a second. */
  private double rise(double[][] band, double[] mean, int end) {
    double most = 0;
    for (int i = end; i < Math.min(band.length, end + (int) Math.ceil(0.5 / sliceSeconds)); i++) {
      for (int b = 0; b < mean.length; b++) {
        most = Math.max(most, band[i][b] - mean[b]);
      }
    }
    return most;
  }

  private int margin(double seconds) {
    return (int) Math.max(1, Math.ceil(seconds / sliceSeconds - 0.5));
  }

  private double[] bands(Slice slice) {
    double[] out = new double[scatterDb.length];
    for (int b = 0; b < out.length; b++) {
      out[b] = 10 * StrictMath.log10(Math.max(slice.band(edges[b], edges[b + 1]), 1e-30));
    }
    return out;
  }

  private static double[] mean(double[][] band, int from, int to) {
    double[] mean = new double[band[from].length];
    for (int i = from; i < to; i++) {
      for (int b = 0; b < mean.length; b++) {
        mean[b] += band[i][b] / (to - from);
      }
    }
    return mean;
  }

  private boolean steady(
      List<Slice> slices, double[][] band, int refFrom, int refTo, int from, int to) {
    double[] mean = mean(band, refFrom, refTo);
    for (int i = from; i < to; i++) {
      if (slices.get(i).silent() || !alike(band[i], mean)) {
        return false;
      }
    }
    return true;
  }

  private boolean alike(double[] band, double[] mean) {
    for (int b = 0; b < mean.length; b++) {
      if (Math.abs(band[b] - mean[b]) > SWING_DB + 4 * scatterDb[b]) {
        return false;
      }
    }
    return true;
  }

  /**
   * Grows the stretch as long as it goes on alike; a single slice that stands out (a click, a pop)
   * does not end it.
   */
  private int grow(List<Slice> slices, double[][] band, int start, int end) {
    double[] mean = mean(band, start, end);
    int last = end;
    int missed = 0;
    for (int i = end; i < band.length && missed < 2; i++) {
      if (!slices.get(i).silent() && alike(band[i], mean)) {
        missed = 0;
        last = i + 1;
        if (last - start < 2.0 / sliceSeconds) {
          mean = mean(band, start, last); // one turn of the disc teaches the mean
        }
      } else {
        missed++;
      }
    }
    return last;
  }

  private static double level(List<Slice> slices, int from, int to) {
    double[] sorted = new double[to - from];
    for (int i = from; i < to; i++) {
      sorted[i - from] = slices.get(i).meanSquare();
    }
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }

  private static String inSeconds(double seconds) {
    return String.format(Locale.ROOT, "%.2f s", seconds);
  }
}
