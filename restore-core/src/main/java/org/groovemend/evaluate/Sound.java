package org.groovemend.evaluate;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.Words;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.simulate.DemoSide;
import org.groovemend.simulate.RestraintPiece;

/**
 * Undamaged sound to try a treatment on.
 *
 * @param name for tables
 * @param sampleRateHz of the samples
 * @param samples planar, one or two channels, peak half of full scale
 */
public record Sound(String name, int sampleRateHz, double[][] samples) {
  /** Room for damage: the peak a sound is brought to. */
  private static final double PEAK = 0.5;

  /** Hiss of an invented studio, root mean square: about -76 dBFS. */
  private static final double HISS = 1.6e-4;

  /**
   * The invented tune of the demonstration, with the hiss that any recording has: without, the
   * least touch would stand out.
   */
  public static Sound demo(double seconds) {
    DemoSide demo = DemoSide.generate(1);
    int from = (int) demo.truth().musicStart();
    int most = (int) (demo.truth().musicEnd() - from);
    int count = (int) Math.min(most, Math.round(seconds * demo.sampleRateHz()));
    double[][] x = new double[demo.clean().length][];
    for (int c = 0; c < x.length; c++) {
      x[c] = java.util.Arrays.copyOfRange(demo.clean()[c], from, from + count);
    }
    toPeak(x);
    Random random = new Random(1);
    for (double[] channel : x) {
      for (int n = 0; n < count; n++) {
        channel[n] += HISS * random.nextGaussian();
      }
    }
    return new Sound("invented band", demo.sampleRateHz(), x);
  }

  /** All undamaged pieces that look like damage, at 48 and 96 kHz. */
  public static List<Sound> restraint(double seconds) {
    List<Sound> all = new ArrayList<>();
    for (int rate : new int[] {48_000, 96_000}) {
      for (RestraintPiece piece : RestraintPiece.values()) {
        all.add(restraint(piece, rate, seconds, 1));
      }
    }
    return all;
  }

  /** An undamaged piece that looks like damage. */
  public static Sound restraint(RestraintPiece piece, int sampleRateHz, double seconds, long seed) {
    return new Sound(
        piece.words() + ", " + sampleRateHz / 1000 + " kHz",
        sampleRateHz,
        toPeak(piece.play(sampleRateHz, seconds, seed)));
  }

  /**
   * The middle of a file.
   *
   * @throws org.groovemend.audio.InputRejectedException if it cannot be read
   * @throws IllegalArgumentException if it is silent or shorter than a second
   */
  public static Sound of(Path file, double seconds) throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      AudioFormat format = side.format();
      if (side.frames() < format.sampleRateHz()) {
        throw new IllegalArgumentException(
            file + " is shorter than a second; give a second of music at least.");
      }
      int count = (int) Math.min(side.frames(), Math.round(seconds * format.sampleRateHz()));
      long from = (side.frames() - count) / 2;
      long[][] words = new long[format.channels()][count];
      side.readWords(from, count, words, 0);
      double[][] x = new double[format.channels()][count];
      for (int c = 0; c < x.length; c++) {
        Words.toDoubles(words[c], 0, x[c], 0, count, format);
      }
      if (!(Levels.peak(x) > 0)) {
        throw new IllegalArgumentException(
            file + " is silent in its middle; give a file with music there.");
      }
      String name = String.valueOf(file.getFileName());
      return new Sound(name, format.sampleRateHz(), toPeak(x));
    }
  }

  private static double[][] toPeak(double[][] x) {
    double gain = PEAK / Levels.peak(x);
    for (double[] channel : x) {
      for (int n = 0; n < channel.length; n++) {
        channel[n] *= gain;
      }
    }
    return x;
  }

  public int frames() {
    return samples[0].length;
  }

  public int channels() {
    return samples.length;
  }
}
