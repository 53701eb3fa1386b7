package org.groovemend.hum;

import java.io.IOException;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;

/** Sides for the tests of this room. */
final class HumSound {
  private HumSound() {}

  static double[] noise(int frames, double sigma, long seed) {
    Random random = new Random(seed);
    double[] x = new double[frames];
    for (int n = 0; n < frames; n++) {
      x[n] = sigma * random.nextGaussian();
    }
    return x;
  }

  /** Amplitude of a line so many dB over the noise's power in 1 Hz. */
  static double over(double sigma, int rate, double db) {
    return Math.sqrt(2 * 2 * sigma * sigma / rate * Math.pow(10, db / 10));
  }

  /**
   * Adds a cosine whose frequency moves evenly and whose amplitude beats.
   *
   * @param drift share of the frequency over the whole length
   * @param beat relative swing of the amplitude, once in eleven seconds
   */
  static void add(
      double[] x,
      int rate,
      double hertz,
      double amplitude,
      double drift,
      double beat,
      double turn) {
    for (int n = 0; n < x.length; n++) {
      double t = n / (double) rate;
      double cycles = hertz * t * (1 + drift * (0.5 * n / x.length - 0.5));
      double a = amplitude * (1 + beat * Math.sin(2 * Math.PI * t / 11 + turn));
      x[n] += a * Math.cos(2 * Math.PI * (cycles - Math.rint(cycles)) + turn);
    }
  }

  /** A note with soft edges. */
  static void note(double[] x, int rate, double hertz, double amplitude, double from, double to) {
    for (int n = (int) (from * rate); n < Math.min(x.length, (int) (to * rate)); n++) {
      double t = n / (double) rate;
      double edge = Math.min(1, Math.min((t - from) / 0.05, (to - t) / 0.1));
      for (int k = 1; k <= 4; k++) {
        x[n] += edge * amplitude / k * Math.sin(2 * Math.PI * k * hertz * t);
      }
    }
  }

  static RangeReader side(int rate, double[]... channels) {
    AudioFormat format = AudioFormat.ieeeFloat(rate, channels.length, 64);
    return new RangeReader() {
      @Override
      public AudioFormat format() {
        return format;
      }

      @Override
      public long frames() {
        return channels[0].length;
      }

      @Override
      public void read(long firstFrame, int count, double[][] into) {
        for (int c = 0; c < channels.length; c++) {
          System.arraycopy(channels[c], (int) firstFrame, into[c], 0, count);
        }
      }
    };
  }

  static HumStage analyse(int rate, double[]... channels) throws IOException {
    return HumAnalyser.analyse(side(rate, channels), HumParameters.defaults());
  }

  /** The side as the stage leaves it, in its own segments. */
  static double[][] treat(HumStage stage, int rate, double[]... channels) {
    AudioFormat format = AudioFormat.ieeeFloat(rate, channels.length, 64);
    Segmentation cut = stage.segmentation(format);
    int frames = channels[0].length;
    double[][] out = new double[channels.length][frames];
    for (int start = 0; start < frames; start += cut.segmentFrames()) {
      int end = Math.min(frames, start + cut.segmentFrames());
      int first = Math.max(0, start - cut.contextBefore());
      int length = Math.min(frames, end + cut.contextAfter()) - first;
      double[][] window = new double[channels.length][length];
      double[][] part = new double[channels.length][end - start];
      for (int c = 0; c < channels.length; c++) {
        System.arraycopy(channels[c], first, window[c], 0, length);
      }
      stage.open(format).treat(new SegmentWindow(window, first, length, start, end, frames), part);
      for (int c = 0; c < channels.length; c++) {
        System.arraycopy(part[c], 0, out[c], start, end - start);
      }
    }
    return out;
  }

  /** Mean power of Hann windows of two seconds, half overlapping, from one frequency to another. */
  static double power(double[] x, int rate, double from, double to) {
    int length = 2 * rate;
    double sum = 0;
    for (int start = 0; start + length <= x.length; start += length / 2) {
      for (double f = Math.ceil(2 * from) / 2; f <= to; f += 0.5) {
        double re = 0;
        double im = 0;
        double step = 2 * Math.PI * f / rate;
        for (int n = 0; n < length; n++) {
          double w = 0.5 - 0.5 * Math.cos(2 * Math.PI * n / length);
          re += w * x[start + n] * Math.cos(step * n);
          im += w * x[start + n] * Math.sin(step * n);
        }
        sum += re * re + im * im;
      }
    }
    return sum;
  }
}
