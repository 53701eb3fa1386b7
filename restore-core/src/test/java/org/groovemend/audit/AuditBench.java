package org.groovemend.audit;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.groovemend.audio.AudioFormat;

/**
 * Random derivatives of invented music whose making is known, and how well an audit without a
 * ledger finds it out. Delays and rates are made by the slow obvious formula, a sinc of 96 zero
 * crossings on each side under Hann's window, evaluated sample by sample; nothing of the program's
 * own resampler is used.
 */
final class AuditBench {
  private static final int REACH = 96;

  /**
   * A derivative and the truth.
   *
   * @param place original frame at derivative frame 0, in derivative frames
   * @param factor speed
   * @param edits channel, from, to in frames of the derivative
   */
  record Case(
      String name,
      Sound original,
      Sound derivative,
      double gainDb,
      boolean opposed,
      double place,
      double factor,
      List<long[]> edits) {}

  /**
   * How well it went.
   *
   * @param found edits that a listed range touches
   * @param accused samples in listed ranges and in no edit
   * @param samples of the derivative, all channels
   */
  record Score(
      String name,
      int edits,
      int found,
      long accused,
      long samples,
      double gainError,
      double placeError,
      double ppmError,
      boolean polarityRight) {
    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "%-64s edits %3d/%3d accused %.4f%% gain %+.5f dB place %+.5f ppm %+.4f %s",
          name,
          found,
          edits,
          100.0 * accused / samples,
          gainError,
          placeError,
          ppmError,
          polarityRight ? "" : "POLARITY WRONG");
    }
  }

  private AuditBench() {}

  static Case make(long seed, double seconds) {
    Random random = new Random(seed * 7919 + 13);
    int[] rates = {44_100, 48_000, 96_000, 44_100, 48_000};
    int rate = rates[random.nextInt(rates.length)];
    int channels = 1 + random.nextInt(2);
    int bits = random.nextBoolean() ? 24 : 16;
    Sound original =
        Sound.of(
            AudioFormat.pcm(rate, channels, bits),
            Music.play(seed, rate, channels, seconds),
            random);
    double[][] x = original.samples();
    int newRate = rate;
    double factor = 1;
    double place = 0;
    double gainDb = 0;
    boolean opposed = random.nextInt(4) == 0;
    StringBuilder name = new StringBuilder(seed + ": " + rate + "/" + bits + "/" + channels);
    int kind = random.nextInt(5);
    if (kind >= 3) {
      newRate = rate == 44_100 ? 48_000 : rate == 48_000 ? 44_100 : 48_000;
      name.append(" to ").append(newRate);
    }
    if (kind == 4) {
      factor = 1 + (random.nextDouble() - 0.5) * 0.03;
      name.append(String.format(Locale.ROOT, " x%.6f", factor));
    }
    if (kind == 1 || kind == 2) {
      place = Math.rint((random.nextDouble() - 0.5) * rate);
    }
    if (kind == 2 || kind == 3) {
      place += random.nextDouble() - 0.5;
    }
    if (place != 0) {
      name.append(String.format(Locale.ROOT, " place %.3f", place));
    }
    if (random.nextInt(3) > 0) {
      gainDb = -12 + 15 * random.nextDouble();
      name.append(String.format(Locale.ROOT, " %.2f dB", gainDb));
    }
    double step = factor * rate / newRate;
    double[][] y;
    if (step == 1 && place == Math.rint(place)) {
      y = shifted(x, (int) place);
    } else {
      int n = (int) Math.floor((x[0].length) / step - Math.max(0, place));
      y = new double[channels][];
      for (int c = 0; c < channels; c++) {
        y[c] = heard(x[c], n, place * step, step);
      }
    }
    double gain = Math.pow(10, gainDb / 20) * (opposed ? -1 : 1);
    for (double[] channel : y) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] *= gain;
      }
    }
    List<long[]> edits = edits(y, newRate, random, Math.abs(gain));
    int newBits = random.nextInt(3) == 0 ? 16 : bits;
    boolean touched = gainDb != 0 || step != 1 || place != Math.rint(place) || newBits < bits;
    name.append(" -> ").append(newBits);
    Random dither = touched && random.nextInt(3) > 0 ? random : null;
    name.append(dither == null ? "" : "d").append(opposed ? " opposed" : "");
    Sound derivative = Sound.of(AudioFormat.pcm(newRate, channels, newBits), y, dither);
    return new Case(name.toString(), original, derivative, gainDb, opposed, place, factor, edits);
  }

  static double[][] shifted(double[][] x, int place) {
    int n = x[0].length - Math.max(0, place);
    double[][] y = new double[x.length][n];
    for (int c = 0; c < x.length; c++) {
      for (int i = Math.max(0, -place); i < n && i + place < x[c].length; i++) {
        y[c][i] = x[c][i + place];
      }
    }
    return y;
  }

  /** {@code count} values at {@code from + i * step}, band-limited to the lower half rate. */
  static double[] heard(double[] x, int count, double from, double step) {
    double[] y = new double[count];
    double cut = Math.min(1, 1 / step) * (step == 1 ? 1 : 0.96);
    double reach = REACH / cut;
    for (int i = 0; i < count; i++) {
      double at = from + i * step;
      int first = (int) Math.max(0, Math.ceil(at - reach));
      int last = (int) Math.min(x.length - 1, Math.floor(at + reach));
      double sum = 0;
      // sin(pi cut (k - at)) and the window's cosine by their recurrences
      double w = Math.PI * cut;
      double v = Math.PI / reach;
      double s = Math.sin(w * (first - at));
      double c = Math.cos(w * (first - at));
      double sw = Math.sin(w);
      double cw = Math.cos(w);
      double hs = Math.sin(v * (first - at));
      double hc = Math.cos(v * (first - at));
      double shv = Math.sin(v);
      double chv = Math.cos(v);
      for (int k = first; k <= last; k++) {
        double u = k - at;
        double sinc = Math.abs(u) < 1e-9 ? cut : s / (Math.PI * u);
        sum += x[k] * sinc * (0.5 + 0.5 * hc);
        double next = s * cw + c * sw;
        c = c * cw - s * sw;
        s = next;
        double hnext = hs * chv + hc * shv;
        hc = hc * chv - hs * shv;
        hs = hnext;
      }
      y[i] = sum;
    }
    return y;
  }

  /** Repairs and clicks, whose difference reaches -54 dBFS at the least. */
  private static List<long[]> edits(double[][] y, int rate, Random random, double gain) {
    List<long[]> edits = new ArrayList<>();
    int wanted = (int) (2.0 * y[0].length / rate);
    long[] free = new long[y.length];
    for (int tries = 0; edits.size() < wanted && tries < 20 * wanted; tries++) {
      int c = random.nextInt(y.length);
      int length = (int) (4 * Math.pow(150, random.nextDouble()) * rate / 44_100);
      int from = rate / 2 + random.nextInt(Math.max(1, y[0].length - rate));
      boolean near = false;
      for (long[] e : edits) {
        near |= e[0] == c && from < e[2] + rate / 100 && from + length > e[1] - rate / 100;
      }
      if (near || from + length + 1 >= y[c].length) {
        continue;
      }
      double[] d = new double[length];
      if (random.nextBoolean()) {
        // a straight line instead of the sound
        double a = y[c][from - 1];
        double b = y[c][from + length];
        for (int i = 0; i < length; i++) {
          d[i] = a + (b - a) * (i + 1) / (length + 1) - y[c][from + i];
        }
      } else {
        double level = Math.pow(10, (-50 + 40 * random.nextDouble()) / 20);
        for (int i = 0; i < length; i++) {
          d[i] = level * Math.exp(-3.0 * i / length) * (i % 6 < 3 ? 1 : -1);
        }
      }
      double peak = 0;
      for (double v : d) {
        peak = Math.max(peak, Math.abs(v));
      }
      if (peak < 2e-3) {
        continue;
      }
      for (int i = 0; i < length; i++) {
        y[c][from + i] = Math.max(-1, Math.min(0.9999, y[c][from + i] + d[i]));
      }
      edits.add(new long[] {c, from, from + length});
    }
    return edits;
  }

  static Score score(Case one) throws IOException {
    WordCensus words = WordCensus.of(one.derivative(), (d, t) -> {});
    MeasuredAudit m = MeasuredAudit.of(one.original(), one.derivative(), words, (d, t) -> {});
    long samples = one.derivative().frames() * one.derivative().words().length;
    if (m == null) {
      return new Score(
          one.name() + " NOT FOUND", one.edits().size(), 0, 0, samples, 99, 99, 1e6, false);
    }
    int found = 0;
    boolean[][] truth = new boolean[one.derivative().words().length][];
    for (int c = 0; c < truth.length; c++) {
      truth[c] = new boolean[(int) one.derivative().frames()];
    }
    for (long[] e : one.edits()) {
      boolean hit = false;
      for (Difference d : m.differences().list()) {
        hit |= d.channel() == e[0] && d.from() < e[2] && d.to() > e[1];
      }
      found += hit ? 1 : 0;
      for (long i = e[1]; i < e[2]; i++) {
        truth[(int) e[0]][(int) i] = true;
      }
    }
    long accused = 0;
    for (Difference d : m.differences().list()) {
      for (long i = d.from(); i < d.to(); i++) {
        accused += truth[d.channel()][(int) i] ? 0 : 1;
      }
    }
    double gainError = 0;
    boolean polarity = true;
    for (int c = 0; c < m.models().length; c++) {
      double e = m.gainDb()[c] - one.gainDb();
      gainError = Math.abs(e) > Math.abs(gainError) ? e : gainError;
      polarity &= m.models()[c].gain() < 0 == one.opposed();
    }
    // both at the middle of the derivative
    double middle = one.derivative().frames() / 2.0;
    Alignment.Stretch s = m.alignment().stretches().get(0);
    // the place is told in frames of the derivative at its speed, as heard
    double told = (middle + s.lag() + m.alignment().partSamples()) * m.alignment().factor();
    double true_ = (middle + one.place()) * one.factor();
    return new Score(
        one.name(),
        one.edits().size(),
        found,
        accused,
        samples,
        gainError,
        (told - true_) / one.factor(),
        (m.alignment().factor() / one.factor() - 1) * 1e6,
        polarity);
  }
}
