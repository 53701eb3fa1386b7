package org.groovemend.report;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.signal.fft.RealFft;

/**
 * Level over time and frequency, all channels together (mean of their powers).
 *
 * <p>Frequency rises on a logarithmic scale from {@value #LOWEST_HZ} Hz to half the sample rate;
 * row 0 is the lowest. The value is the level in the row's band in dB re a full-scale sine: a
 * full-scale sine in every channel reads 0 dB in its row. The band of a row reaches two transform
 * bins beyond its edges (the main lobe of the window), so white noise of RMS s reads 10 log10(4 s^2
 * bins / N), {@link #bins} counted, N = {@link #windowFrames}.
 *
 * @param frames length of the side
 * @param sampleRateHz samples a second
 * @param windowFrames N, length of the transform
 * @param db {@code [column][row]}, {@value #FLOOR_DB} for silence
 */
public record Spectrogram(long frames, int sampleRateHz, int windowFrames, float[][] db) {

  public static final double LOWEST_HZ = 30;
  public static final float FLOOR_DB = -200;

  /** Wanted window length; longer ones blur ticks, shorter ones the bass. */
  private static final double WINDOW_SECONDS = 0.04;

  private static final int LONGEST_WINDOW = 4096;
  private static final int SHORTEST_WINDOW = 16;

  /** Most windows averaged in a column. */
  private static final int WINDOWS_PER_COLUMN = 6;

  public int columns() {
    return db.length;
  }

  public int rows() {
    return db.length == 0 ? 0 : db[0].length;
  }

  /** Lower edge of a row, Hz; the upper edge of the last row for {@code row = rows}. */
  public static double edgeHz(int row, int rows, int sampleRateHz) {
    return LOWEST_HZ * StrictMath.pow(sampleRateHz / 2.0 / LOWEST_HZ, row / (double) rows);
  }

  /** First transform bin counted for a row. */
  static int firstBin(int row, int rows, int rateHz, int window) {
    return Math.max(1, (int) Math.floor(edgeHz(row, rows, rateHz) * window / rateHz) - 2);
  }

  /** Last transform bin counted for a row; the bin of half the rate is left out. */
  static int lastBin(int row, int rows, int rateHz, int window) {
    int last = (int) Math.ceil(edgeHz(row + 1, rows, rateHz) * window / rateHz) + 2;
    return Math.max(1, Math.min(window / 2 - 1, last));
  }

  /** Transform bins whose power makes up a row. */
  public int bins(int row) {
    return lastBin(row, rows(), sampleRateHz, windowFrames)
        - firstBin(row, rows(), sampleRateHz, windowFrames)
        + 1;
  }

  /**
   * Reads as much of a side as its columns need and no more.
   *
   * <p>Each column averages the power of Hann windows of 40 to 80 ms (shorter above 100 kHz: at
   * most 4096 frames), as many as fit at half overlap, at most {@value #WINDOWS_PER_COLUMN}, spread
   * over the column. So up to about 0.14 s a column hears everything; beyond that a tick between
   * two windows is missed. Cost: columns times 6 transforms a channel at most, whatever the length.
   * Reads forwards.
   *
   * @param columns wanted; fewer if the side has fewer frames
   * @param rows 1 to 4096
   */
  public static Spectrogram of(
      SampleRanges source, AudioFormat format, long frames, int columns, int rows)
      throws IOException {
    if (rows < 1 || rows > 4096) {
      throw new IllegalArgumentException("rows " + rows + " is outside 1 to 4096");
    }
    Columns time = Columns.of(frames, columns);
    int window = windowFrames(format.sampleRateHz(), frames);
    ColumnSpectrum spectrum = new ColumnSpectrum(source, format.channels(), frames, window);
    float[][] db = new float[time.count()][rows];
    for (int i = 0; i < time.count(); i++) {
      long start = time.start(i);
      long length = time.start(i + 1) - start;
      int windows = (int) Math.max(1, Math.min(WINDOWS_PER_COLUMN, length * 2 / window));
      spectrum.clear();
      for (int k = 0; k < windows; k++) {
        spectrum.add(start + (long) ((k + 0.5) * length / windows));
      }
      spectrum.rows(format.sampleRateHz(), windows, db[i]);
    }
    return new Spectrogram(frames, format.sampleRateHz(), window, db);
  }

  private static int windowFrames(int rateHz, long frames) {
    int wanted = SHORTEST_WINDOW;
    while (wanted < LONGEST_WINDOW && wanted < rateHz * WINDOW_SECONDS) {
      wanted *= 2;
    }
    while (wanted > SHORTEST_WINDOW && wanted > frames) {
      wanted /= 2;
    }
    return wanted;
  }

  /** Sums the power spectra of windows. */
  private static final class ColumnSpectrum {
    private final SampleRanges source;
    private final long frames;
    private final int window;
    private final RealFft fft;
    private final double[] hann;
    private final double scale;
    private final double[][] samples;
    private final double[] power;

    ColumnSpectrum(SampleRanges source, int channels, long frames, int window) {
      this.source = source;
      this.frames = frames;
      this.window = window;
      this.fft = new RealFft(window);
      this.hann = new double[window];
      double energy = 0;
      for (int i = 0; i < window; i++) {
        hann[i] = 0.5 - 0.5 * StrictMath.cos(2 * Math.PI * i / window);
        energy += hann[i] * hann[i];
      }
      // a sine of amplitude 1 leaves N * energy / 4 in its main lobe (Parseval)
      this.scale = 4 / (window * energy) / channels;
      this.samples = new double[channels][window];
      this.power = new double[window / 2];
    }

    void clear() {
      java.util.Arrays.fill(power, 0);
    }

    /** The window about {@code centre}, moved inside the side where it would reach out of it. */
    void add(long centre) throws IOException {
      int count = (int) Math.min(window, frames);
      long first = Math.max(0, Math.min(frames - count, centre - count / 2));
      for (double[] channel : samples) {
        java.util.Arrays.fill(channel, 0);
      }
      source.read(first, count, samples);
      for (double[] channel : samples) {
        for (int i = 0; i < window; i++) {
          channel[i] *= hann[i];
        }
        fft.forward(channel);
        for (int k = 1; k < window / 2; k++) {
          double re = channel[2 * k];
          double im = channel[2 * k + 1];
          power[k] += re * re + im * im;
        }
      }
    }

    void rows(int rateHz, int windows, float[] out) {
      for (int r = 0; r < out.length; r++) {
        double sum = 0;
        int last = lastBin(r, out.length, rateHz, window);
        for (int k = firstBin(r, out.length, rateHz, window); k <= last; k++) {
          sum += power[k];
        }
        double level = sum * scale / windows;
        out[r] = level > 0 ? Math.max(FLOOR_DB, (float) (10 * StrictMath.log10(level))) : FLOOR_DB;
      }
    }
  }
}
