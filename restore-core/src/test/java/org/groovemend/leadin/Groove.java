package org.groovemend.leadin;

import java.util.Random;
import org.groovemend.audio.AudioFormat;

/** Invented sides for tests, part by part. */
final class Groove {

  final AudioFormat format;
  final double[][] x;
  private final Random random;
  private final double phase;
  private int at;

  Groove(int rate, int channels, double seconds, long seed) {
    this.format = AudioFormat.pcm(rate, channels, 24);
    this.x = new double[channels][(int) Math.round(rate * seconds)];
    this.random = new Random(seed);
    this.phase = random.nextDouble() * 6.28;
  }

  double seconds() {
    return at / (double) format.sampleRateHz();
  }

  /**
   * Tilted noise whose level swings once and twice a turn of 33 1/3 a minute, rms given, over the
   * rest or a time.
   */
  Groove noise(double rms, double seconds) {
    int end = Math.min(x[0].length, at + (int) (seconds * format.sampleRateHz()));
    double[] low = new double[x.length];
    for (int i = at; i < end; i++) {
      double turn = 2 * Math.PI * i / format.sampleRateHz() / 1.8;
      double swing = 1 + 0.25 * Math.sin(turn + phase) + 0.1 * Math.sin(2 * turn + 2 * phase);
      double common = random.nextGaussian();
      for (int c = 0; c < x.length; c++) {
        double w = 0.8 * random.nextGaussian() + 0.6 * common;
        low[c] = 0.98 * low[c] + 0.06 * w;
        x[c][i] += rms * swing * 0.8 * (0.7 * w + 2.0 * low[c]);
      }
    }
    return this;
  }

  /** Goes on by a time. */
  Groove skip(double seconds) {
    at += (int) Math.round(seconds * format.sampleRateHz());
    return this;
  }

  Groove back() {
    at = 0;
    return this;
  }

  /** A chord of decaying notes, struck anew every half second, with attacks of 10 ms. */
  Groove music(double amplitude, double seconds) {
    int rate = format.sampleRateHz();
    int end = Math.min(x[0].length, at + (int) (seconds * rate));
    for (int note = at, j = 0; note < end; note += rate / 2, j++) {
      double f = 220 * Math.pow(2, ((j * 5) % 12) / 12.0);
      for (int i = note; i < Math.min(end, note + rate); i++) {
        double t = (i - note) / (double) rate;
        double e = Math.min(1, t / 0.01) * Math.exp(-2 * t);
        for (int k = 1; k <= 8; k++) {
          double v = amplitude / k * e * Math.sin(2 * Math.PI * f * k * t);
          for (double[] channel : x) {
            channel[i] += v;
          }
        }
      }
    }
    return this;
  }

  Groove tone(double hz, double from, double to, double seconds) {
    int n = (int) (seconds * format.sampleRateHz());
    for (int i = at; i < Math.min(x[0].length, at + n); i++) {
      double a = from + (to - from) * (i - at) / n;
      for (double[] channel : x) {
        channel[i] += a * Math.sin(2 * Math.PI * hz * i / format.sampleRateHz());
      }
    }
    return this;
  }

  Groove thump(double amplitude) {
    int rate = format.sampleRateHz();
    for (int i = 0; i < rate / 4 && at + i < x[0].length; i++) {
      double t = i / (double) rate;
      double v = amplitude * Math.exp(-t / 0.05) * Math.sin(2 * Math.PI * 35 * t);
      v += i < rate / 500 ? amplitude * random.nextGaussian() : 0;
      for (double[] channel : x) {
        channel[at + i] += v;
      }
    }
    return this;
  }

  /** Clicks of one to three samples, so many a second. */
  Groove clicks(double amplitude, double perSecond, double seconds) {
    int n = (int) (seconds * perSecond);
    for (int j = 0; j < n; j++) {
      int i = at + (int) (random.nextDouble() * seconds * format.sampleRateHz());
      for (int k = 0; k < 3 && i + k < x[0].length; k++) {
        x[j % x.length][i + k] += amplitude * (random.nextDouble() - 0.5) * 2;
      }
    }
    return this;
  }

  LeadInFinding find() {
    LeadInFinder finder = new LeadInFinder(format, x[0].length);
    // pieces of odd length, as a reader may give them
    int piece = 4099;
    double[][] part = new double[x.length][piece];
    for (int i = 0; i < x[0].length; i += piece) {
      int count = Math.min(piece, x[0].length - i);
      for (int c = 0; c < x.length; c++) {
        System.arraycopy(x[c], i, part[c], 0, count);
      }
      finder.accept(part, count);
    }
    return finder.finish();
  }
}
