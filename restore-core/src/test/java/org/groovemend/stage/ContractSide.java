package org.groovemend.stage;

import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;

/** A side in memory, given as doubles, for the laws of {@link StageContract}. */
public record ContractSide(AudioFormat format, long[][] words) implements WordSource, RangeReader {

  /** Share of a worn side that is bare groove, at its beginning. */
  static final double BARE = 0.25;

  static ContractSide of(AudioFormat format, double[][] x) {
    long[][] words = new long[x.length][];
    double scale = Math.scalb(1.0, format.containerBits() - 1);
    for (int c = 0; c < x.length; c++) {
      words[c] = new long[x[c].length];
      for (int i = 0; i < x[c].length; i++) {
        words[c][i] =
            format.coding() == SampleCoding.FLOAT
                ? Words.floatWord(x[c][i], format)
                : (long) Math.max(-scale, Math.min(scale - 1, Math.rint(x[c][i] * scale)));
      }
    }
    return new ContractSide(format, words);
  }

  /**
   * An invented worn side: groove noise, from a quarter of its length on with tones that differ
   * between the channels, and pulses on one wall or both, some of them across the borders of {@code
   * segmentFrames}.
   */
  static double[][] worn(AudioFormat format, int frames, int segmentFrames, long seed) {
    Random random = new Random(seed);
    double[][] x = new double[format.channels()][frames];
    int bare = (int) (BARE * frames);
    double turn = 2 * Math.PI / format.sampleRateHz();
    for (int c = 0; c < x.length; c++) {
      for (int i = 0; i < frames; i++) {
        double tones = 0;
        for (int k = 1; i >= bare && k <= 4; k++) {
          tones += 0.08 / k * Math.sin(turn * i * k * (196 + 25 * c) + k * c);
        }
        x[c][i] = tones + 4e-4 * random.nextGaussian();
      }
    }
    int step = format.sampleRateHz() / 9;
    for (int at = bare + step; at < frames; at += step) {
      pulse(
          x[random.nextInt(x.length)],
          at + random.nextInt(step / 2),
          0.1 + 0.3 * random.nextDouble());
    }
    for (int at = segmentFrames; at < frames; at += segmentFrames) {
      for (double[] channel : x) {
        pulse(channel, at - 3, 0.35 * (random.nextBoolean() ? 1 : -1));
      }
    }
    return x;
  }

  private static void pulse(double[] x, int at, double size) {
    double[] shape = {0.3, 1, 0.7, -0.4, -0.5, 0.2};
    for (int i = 0; i < shape.length && at + i < x.length; i++) {
      x[at + i] += size * shape[i];
    }
  }

  @Override
  public long frames() {
    return words[0].length;
  }

  @Override
  public void readWords(long firstFrame, int count, long[][] into, int offset) {
    for (int c = 0; c < words.length; c++) {
      System.arraycopy(words[c], (int) firstFrame, into[c], offset, count);
    }
  }

  @Override
  public void read(long firstFrame, int count, double[][] into) {
    for (int c = 0; c < words.length; c++) {
      Words.toDoubles(words[c], (int) firstFrame, into[c], 0, count, format);
    }
  }

  double[][] samples() {
    double[][] x = new double[words.length][(int) frames()];
    read(0, (int) frames(), x);
    return x;
  }
}
