package org.groovemend.speed;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.resample.Resampled;
import org.groovemend.resample.Thinned;
import org.groovemend.stage.RangeReader;

/** Follows the partials of a side, in a copy of 12 kHz and one channel. */
final class PitchAnalyser {
  private static final int RATE = 12_000;
  private static final int SIZE = 1024;

  /** Least rate from which the last step is made, and what must be left alone until then. */
  private static final double LEAST_THINNED = 22_000;

  private static final double PASS_HERTZ = 5500;
  private static final double STOP_DB = 100;
  private static final int HOP = 256;
  private static final int CHUNK = 16;
  private static final double PROBE_SECONDS = 20;

  private PitchAnalyser() {}

  static PartialTracks tracks(RangeReader side) throws IOException {
    int rate = Math.min(RATE, side.format().sampleRateHz());
    RangeReader one = side.format().channels() == 1 ? side : new Lateral(side, sign(side));
    Resampled low = Resampled.atRate(thinned(one), rate);
    PartialTracks tracks = new PartialTracks(rate, SIZE, HOP);
    PeakFinder peaks = new PeakFinder(SIZE, rate);
    double[][] x = new double[1][SIZE + (CHUNK - 1) * HOP];
    for (long at = 0; at + SIZE <= low.frames(); at += (long) CHUNK * HOP) {
      int frames = (int) Math.min(CHUNK, (low.frames() - at - SIZE) / HOP + 1);
      low.read(at, SIZE + (frames - 1) * HOP, x);
      for (int i = 0; i < frames; i++) {
        tracks.add(peaks, peaks.find(x[0], i * HOP));
      }
    }
    tracks.finish();
    return tracks;
  }

  /** The far greater part of the rate goes cheaply; the last step is made as for sound. */
  private static RangeReader thinned(RangeReader side) {
    int rate = side.format().sampleRateHz();
    int step = (int) (rate / LEAST_THINNED);
    while (step > 1 && rate % step != 0) {
      step--;
    }
    return step < 2 ? side : new Thinned(side, step, PASS_HERTZ, STOP_DB);
  }

  /** A vertical cut, or a wall with swapped leads, holds its sound in the difference. */
  private static int sign(RangeReader side) throws IOException {
    int block = 1 << 14;
    double[][] x = new double[2][block];
    long probes = Math.max(1, (long) (PROBE_SECONDS * side.format().sampleRateHz() / block));
    double product = 0;
    for (long i = 0; i < probes; i++) {
      long at = Math.max(0, side.frames() - block) * (2 * i + 1) / (2 * probes);
      int n = (int) Math.min(block, side.frames() - at);
      side.read(at, n, x);
      for (int k = 0; k < n; k++) {
        product += x[0][k] * x[1][k];
      }
    }
    return product < 0 ? -1 : 1;
  }

  /** Sum or difference of two channels. */
  private static final class Lateral implements RangeReader {
    private final RangeReader side;
    private final int sign;
    private double[][] both = new double[2][0];

    Lateral(RangeReader side, int sign) {
      this.side = side;
      this.sign = sign;
    }

    @Override
    public AudioFormat format() {
      return AudioFormat.ieeeFloat(side.format().sampleRateHz(), 1, 64);
    }

    @Override
    public long frames() {
      return side.frames();
    }

    @Override
    public void read(long firstFrame, int count, double[][] into) throws IOException {
      if (both[0].length < count) {
        both = new double[2][count];
      }
      side.read(firstFrame, count, both);
      for (int i = 0; i < count; i++) {
        into[0][i] = 0.5 * (both[0][i] + sign * both[1][i]);
      }
    }
  }
}
