package org.groovemend.job.restore;

import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.Words;

/**
 * Words of a small worn side: a bare groove, then tones in noise, with pulses on either wall;
 * sometimes up to full scale.
 */
final class WornWords {

  private WornWords() {}

  static long[][] of(Random random, AudioFormat format, int frames) {
    int lead = random.nextInt(frames + 1) / 2;
    double level = random.nextInt(4) == 0 ? 1 : Math.exp(-5 * random.nextDouble());
    double noise = level * Math.exp(-7 * random.nextDouble());
    int clicks = random.nextInt(1 + frames / 400);
    double[][] x = new double[format.channels()][frames];
    double[] hz = {random.nextDouble() * 0.2, random.nextDouble() * 0.05, random.nextDouble()};
    for (double[] channel : x) {
      double gain = random.nextInt(10) == 0 ? 0 : 1;
      for (int i = 0; i < frames; i++) {
        double tone =
            i < lead ? 0 : Math.sin(hz[0] * i) + Math.sin(hz[1] * i) + 0.3 * Math.sin(hz[2] * i);
        channel[i] = gain * (0.4 * level * tone + noise * random.nextGaussian());
      }
      for (int k = 0; k < clicks; k++) {
        int at = random.nextInt(frames);
        double peak = level * (random.nextDouble() * 3 - 1.5);
        double width = 1 + random.nextInt(30);
        for (int i = at; i < Math.min(frames, at + 4 * width); i++) {
          channel[i] += peak * Math.exp(-(i - at) / width) * Math.cos((i - at) * 0.9);
        }
      }
    }
    return quantise(x, format);
  }

  private static long[][] quantise(double[][] x, AudioFormat format) {
    long[][] words = new long[x.length][x[0].length];
    double scale = Math.scalb(1.0, format.significantBits() - 1);
    int spare = format.containerBits() - format.significantBits();
    for (int c = 0; c < x.length; c++) {
      for (int i = 0; i < words[c].length; i++) {
        words[c][i] =
            format.coding() == SampleCoding.FLOAT
                ? Words.floatWord(x[c][i], format)
                : (long) Math.max(-scale, Math.min(scale - 1, Math.rint(x[c][i] * scale))) << spare;
      }
    }
    return words;
  }
}
