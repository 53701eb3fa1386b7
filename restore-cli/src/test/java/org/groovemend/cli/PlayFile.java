package org.groovemend.cli;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import java.util.concurrent.ForkJoinPool;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.flac.FlacWriter;

/** Plays of an invented side: plucked notes, noise and clicks of each play alone; 16-bit files. */
final class PlayFile {
  private PlayFile() {}

  /** Plucked notes at random moments, seconds long each. */
  static double[] notes(long seed, int rate, double seconds) {
    Random random = new Random(seed);
    int frames = (int) (seconds * rate);
    double[] x = new double[frames];
    for (double at = 0.25; at < seconds - 1; at += 0.125 + 0.25 * random.nextDouble()) {
      double hertz = 150 * Math.pow(2, 3 * random.nextDouble());
      int first = (int) Math.ceil(at * rate);
      for (int i = first; i < first + rate && i < frames; i++) {
        double t = i / (double) rate - at;
        double fade = Math.min(1, t / 0.003) * Math.exp(-5 * t);
        for (int k = 1; k <= 8; k++) {
          x[i] += 0.08 * fade / k * Math.sin(2 * Math.PI * hertz * k * t);
        }
      }
    }
    return x;
  }

  /**
   * Writes a play.
   *
   * @param clickAt frame in each second at which this play alone has a click; negative for none
   */
  static Path wav(Path file, int rate, double noise, long seed, int clickAt, double[]... sound)
      throws IOException {
    Random random = new Random(seed);
    int frames = sound[0].length;
    int channels = sound.length;
    ByteBuffer out = ByteBuffer.allocate(44 + 2 * channels * frames).order(ByteOrder.LITTLE_ENDIAN);
    out.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + 2 * channels * frames);
    out.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16).putShort((short) 1);
    out.putShort((short) channels).putInt(rate).putInt(2 * channels * rate);
    out.putShort((short) (2 * channels)).putShort((short) 16);
    out.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(2 * channels * frames);
    for (int i = 0; i < frames; i++) {
      for (double[] channel : sound) {
        double value = channel[i] + noise * random.nextGaussian();
        value += clickAt >= 0 && i % rate == clickAt ? 0.3 : 0;
        out.putShort((short) Math.round(32_000 * Math.max(-1, Math.min(1, value))));
      }
    }
    return Files.write(file, out.array());
  }

  /** The same samples as FLAC. */
  static Path flac(Path file, Path wav) throws IOException {
    try (SideReader side = SideFiles.open(wav);
        FlacWriter writer =
            new FlacWriter(file, side.format(), side.frames(), ForkJoinPool.commonPool(), 1)) {
      int block = 4096;
      long[][] words = new long[side.format().channels()][block];
      for (long at = 0; at < side.frames(); at += block) {
        int count = (int) Math.min(block, side.frames() - at);
        side.readWords(at, count, words, 0);
        writer.write(words, 0, count);
      }
    }
    return file;
  }
}
