package org.groovemend.simulate;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.WavWriter;

/**
 * Writes one of the {@link BandedSides} as 24-bit WAV, for the pictures and timings of the page on
 * bands; prints where its bands begin. Arguments: file, seed, share of live joins, times over.
 */
public final class BandedSideFile {
  private BandedSideFile() {}

  public static void main(String[] args) throws IOException {
    BandedSides.Side side =
        new BandedSides(1).side(Long.parseLong(args[1]), Double.parseDouble(args[2]));
    System.out.println("first " + side.first() / (double) BandedSides.RATE + "\n" + side.joins());
    write(Path.of(args[0]), side.samples(), Integer.parseInt(args[3]));
  }

  /** Planar samples, full scale 1.0, one after the other so many times. */
  public static void write(Path file, double[][] samples, int times) throws IOException {
    int n = samples[0].length;
    long[][] words = new long[samples.length][n];
    for (int c = 0; c < samples.length; c++) {
      for (int i = 0; i < n; i++) {
        double x = Math.max(-0.999, Math.min(0.999, samples[c][i]));
        words[c][i] = Math.round(x * (1 << 23));
      }
    }
    AudioFormat format = AudioFormat.pcm(BandedSides.RATE, samples.length, 24);
    try (WavWriter writer =
        WavWriter.create(file, format, (long) n * times, List.of(WavChunk.samples()), null)) {
      for (int k = 0; k < times; k++) {
        writer.write(words, 0, n);
      }
    }
  }
}
