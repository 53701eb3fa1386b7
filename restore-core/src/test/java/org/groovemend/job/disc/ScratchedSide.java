package org.groovemend.job.disc;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.WavWriter;

/** An invented side: soft tones, clicks strewn at random, and a scratch if wanted. */
final class ScratchedSide {

  static final int RATE = 22_050;
  static final double SECONDS = 40;
  static final double TURN = 1.8;

  /** Turns that the scratch crosses, and when it begins. */
  static final int TURNS = 18;

  static final double BEGIN = 4.05;

  private ScratchedSide() {}

  static void write(Path file, boolean scratched) throws IOException {
    AudioFormat format = AudioFormat.pcm(RATE, 1, 16);
    int frames = (int) (SECONDS * RATE);
    Random random = new Random(11);
    double[] x = new double[frames];
    for (int i = 0; i < frames; i++) {
      x[i] = 0.1 * Math.sin(0.05 * i) + 0.05 * Math.sin(0.11 * i) + 0.001 * random.nextGaussian();
    }
    for (int k = 0; k < SECONDS; k++) {
      click(x, random.nextDouble() * SECONDS, random);
    }
    for (int k = 0; k < TURNS; k++) {
      click(x, scratched ? BEGIN + k * TURN : random.nextDouble() * SECONDS, random);
    }
    long[][] words = new long[1][frames];
    for (int i = 0; i < frames; i++) {
      words[0][i] = Math.round(x[i] * 32_767);
    }
    try (WavWriter writer =
        WavWriter.create(file, format, frames, List.of(WavChunk.samples()), null)) {
      writer.write(words, 0, frames);
    }
  }

  private static void click(double[] x, double time, Random random) {
    int at = (int) Math.round(time * RATE);
    double peak = 0.2 + 0.3 * random.nextDouble();
    for (int i = at; i < Math.min(x.length, at + 12); i++) {
      x[i] += peak * Math.exp(-(i - at) / 3.0) * Math.cos(1.3 * (i - at));
    }
  }
}
