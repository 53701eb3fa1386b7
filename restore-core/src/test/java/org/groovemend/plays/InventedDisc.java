package org.groovemend.plays;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.groovemend.stage.ArrayRanges;

/**
 * A disc by formula: its sound at any moment of the groove is worked out there, so that a play with
 * any wow is exact to the last digit and no resampler is asked. Plucked notes in two channels with
 * partials up to 15 kHz.
 */
final class InventedDisc {

  /** A pulse in the groove or of one play: one swing and its back-swing. */
  record Pulse(double grooveSeconds, double height, double widthSeconds) {
    double at(double groove) {
      double u = (groove - grooveSeconds) / widthSeconds;
      return Math.abs(u) > 7 ? 0 : height * Math.exp(0.5) * -u * Math.exp(-u * u / 2);
    }
  }

  private record Note(double start, double length, double hertz, double level, double balance) {}

  private final List<Note> notes = new ArrayList<>();

  InventedDisc(long seed, double fromSeconds, double toSeconds) {
    Random random = new Random(seed);
    double[] scale = {0, 2, 4, 5, 7, 9, 11, 12};
    for (int voice = 0; voice < 4; voice++) {
      double at = fromSeconds + 0.3 * random.nextDouble();
      while (at < toSeconds - 0.5) {
        double length = 0.2 + 0.6 * random.nextDouble();
        double pitch = scale[random.nextInt(8)] + 12 * voice + 0.03 * random.nextGaussian();
        notes.add(
            new Note(
                at,
                Math.min(1.5, toSeconds - at),
                98 * Math.pow(2, pitch / 12),
                0.08 * (0.4 + random.nextDouble()),
                random.nextDouble()));
        at += length;
      }
    }
  }

  /** The same notes at the same moments, each at another pitch. */
  InventedDisc retuned(double factor) {
    List<Note> other = new ArrayList<>();
    for (Note note : notes) {
      other.add(new Note(note.start, note.length, note.hertz * factor, note.level, note.balance));
    }
    notes.clear();
    notes.addAll(other);
    return this;
  }

  /** A needle on a disc that turns unevenly: once and three times a turn. */
  static DoubleUnaryOperator wow(
      double ratio, double offset, double depth, double turnHertz, double phase) {
    double w = 2 * Math.PI * turnHertz;
    return t ->
        offset
            + ratio * t
            + depth / w * Math.sin(w * t + phase)
            + 0.2 * depth / (3 * w) * Math.sin(3 * w * t);
  }

  /** Moment of a play at which the needle is at a moment of the groove, by bisection. */
  static double inverse(DoubleUnaryOperator needle, double groove) {
    double low = -100;
    double high = 10_000;
    for (int i = 0; i < 200; i++) {
      double middle = (low + high) / 2;
      if (needle.applyAsDouble(middle) < groove) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return (low + high) / 2;
  }

  /** Sound of a channel at moments of the groove, growing. */
  double[] sound(double[] groove, int channel) {
    double[] x = new double[groove.length];
    for (Note note : notes) {
      int i = java.util.Arrays.binarySearch(groove, note.start);
      i = i < 0 ? -i - 1 : i;
      double level =
          note.level * (channel == 0 ? 0.6 + 0.4 * note.balance : 1 - 0.4 * note.balance);
      int partials = (int) Math.min(24, 15_000 / note.hertz);
      for (; i < groove.length && groove[i] < note.start + note.length; i++) {
        double t = groove[i] - note.start;
        double fade = Math.min(1, t / 0.002) * Math.min(1, (note.length - t) / 0.05);
        double damp = Math.exp(-0.35 * t);
        double one = Math.exp(-2 * t) * damp;
        double phase = 2 * Math.PI * note.hertz * t;
        double s1 = Math.sin(phase);
        double c1 = Math.cos(phase);
        double s = s1;
        double c = c1;
        double sum = 0;
        for (int k = 1; k <= partials; k++) {
          sum += one / k * s;
          one *= damp;
          double next = s * c1 + c * s1;
          c = c * c1 - s * s1;
          s = next;
        }
        x[i] += level * fade * sum;
      }
    }
    return x;
  }

  /** Moments of the groove at each frame of a play. */
  static double[] groove(int rate, int frames, DoubleUnaryOperator needle) {
    double[] at = new double[frames];
    for (int i = 0; i < frames; i++) {
      at[i] = needle.applyAsDouble(i / (double) rate);
    }
    return at;
  }

  /** Noise of a play: white and, as much again, low. */
  static double[] noise(long seed, int frames, double rms) {
    Random random = new Random(seed);
    double[] x = new double[frames];
    double low = 0;
    for (int i = 0; i < frames; i++) {
      low = 0.9 * low + random.nextGaussian() * Math.sqrt(1 - 0.81);
      x[i] = rms * Math.sqrt(0.5) * (low + random.nextGaussian());
    }
    return x;
  }

  static void add(double[] x, double[] y) {
    for (int i = 0; i < x.length; i++) {
      x[i] += y[i];
    }
  }

  static void add(double[] x, double[] groove, List<Pulse> pulses, double gain) {
    for (Pulse p : pulses) {
      int i = java.util.Arrays.binarySearch(groove, p.grooveSeconds - 8 * p.widthSeconds);
      i = i < 0 ? -i - 1 : i;
      for (; i < groove.length && groove[i] < p.grooveSeconds + 8 * p.widthSeconds; i++) {
        x[i] += gain * p.at(groove[i]);
      }
    }
  }

  static ArrayRanges side(int rate, double[]... channels) {
    return ArrayRanges.of(rate, channels);
  }
}
