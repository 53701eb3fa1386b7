package org.groovemend.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.Test;

class SpectrogramTest {

  private static final int ROWS = 256;

  private static SampleRanges of(double[]... x) {
    return (first, count, into) -> {
      for (int c = 0; c < x.length; c++) {
        System.arraycopy(x[c], (int) first, into[c], 0, count);
      }
    };
  }

  private static double[] sine(int rate, int frames, double hz, double amplitude) {
    double[] x = new double[frames];
    for (int i = 0; i < frames; i++) {
      x[i] = amplitude * Math.sin(2 * Math.PI * hz * i / rate + 0.3);
    }
    return x;
  }

  private static int rowOf(double hz, int rate) {
    for (int r = 0; r < ROWS; r++) {
      if (hz >= Spectrogram.edgeHz(r, ROWS, rate) && hz < Spectrogram.edgeHz(r + 1, ROWS, rate)) {
        return r;
      }
    }
    throw new IllegalArgumentException(String.valueOf(hz));
  }

  @Test
  void fullScaleSineReadsZeroDecibelsInItsRowAtEveryRate() throws IOException {
    for (int rate : new int[] {8_000, 44_100, 48_000, 96_000, 192_000, 384_000}) {
      // between bins, on bins, low and high
      for (double hz : new double[] {200, 1000, 1003.7, 2500, 3500}) {
        double[] x = sine(rate, rate / 2, hz, 1);
        Spectrogram s = Spectrogram.of(of(x), AudioFormat.pcm(rate, 1, 24), x.length, 20, ROWS);
        int row = rowOf(hz, rate);
        for (int i = 0; i < s.columns(); i++) {
          // the main lobe of the window holds 99.95 % of the power; at 384 kHz and 200 Hz it also
          // meets its mirror at 0 Hz, so the lowest tones there are left out
          if (hz * s.windowFrames() / rate > 8) {
            assertThat((double) s.db()[i][row])
                .as("%d Hz, %.1f", rate, hz)
                .isCloseTo(0, within(0.1));
          }
        }
      }
    }
  }

  @Test
  void tenDecibelsLessReadTenDecibelsLessAndFarRowsStayLow() throws IOException {
    double[] x = sine(96_000, 96_000, 1000, Math.pow(10, -0.5));
    Spectrogram s = Spectrogram.of(of(x, x), AudioFormat.pcm(96_000, 2, 24), x.length, 10, ROWS);
    assertThat((double) s.db()[5][rowOf(1000, 96_000)]).isCloseTo(-10, within(0.1));
    // Hann side lobes fall with 18 dB an octave: far below
    assertThat((double) s.db()[5][rowOf(8000, 96_000)]).isLessThan(-110);
  }

  @Test
  void whiteNoiseReadsTheLevelOfItsFormula() throws IOException {
    int frames = 20 * 48_000;
    double sigma = 0.1;
    Random random = new Random(3);
    double[][] x = new double[2][frames];
    for (double[] channel : x) {
      for (int i = 0; i < frames; i++) {
        channel[i] = sigma * random.nextGaussian();
      }
    }
    Spectrogram s = Spectrogram.of(of(x), AudioFormat.pcm(48_000, 2, 24), frames, 100, 64);
    for (int row = 0; row < s.rows(); row++) {
      double mean = 0;
      for (int i = 0; i < s.columns(); i++) {
        mean += Math.pow(10, s.db()[i][row] / 10) / s.columns();
      }
      double formula = 10 * Math.log10(4 * sigma * sigma * s.bins(row) / s.windowFrames());
      // 100 columns of 6 windows, 2 channels, at least 5 bins correlated over 2: 3,000 values or
      // more, standard error 1.8 % = 0.08 dB; four of them
      assertThat(10 * Math.log10(mean)).as("row %d", row).isCloseTo(formula, within(0.32));
    }
  }

  @Test
  void tickIsAnUprightLineInItsColumnOnly() throws IOException {
    double[] x = new double[960 * 1000];
    x[500_500] = 0.5; // column 521 of 1000
    Spectrogram s = Spectrogram.of(of(x), AudioFormat.pcm(96_000, 1, 24), x.length, 1000, ROWS);
    int column = (int) (500_500L * 1000 / x.length);
    for (int row = 20; row < ROWS - 2; row++) {
      assertThat(s.db()[column][row]).isGreaterThan(-80);
      assertThat(s.db()[column + 5][row]).isEqualTo(Spectrogram.FLOOR_DB);
    }
  }

  @Test
  void costIsBoundedByColumnsNotByLength() throws IOException {
    long[] read = new long[2];
    SampleRanges silence =
        (first, count, into) -> {
          assertThat(first).isGreaterThanOrEqualTo(read[1]);
          read[0] += count;
          read[1] = first;
        };
    long tenHours = 36_000L * 96_000;
    Spectrogram s = Spectrogram.of(silence, AudioFormat.pcm(96_000, 2, 24), tenHours, 50, ROWS);
    assertThat(read[0]).isEqualTo(50L * 6 * s.windowFrames());
    assertThat(s.db()[49][100]).isEqualTo(Spectrogram.FLOOR_DB);
  }

  @Test
  void shortAndEmptySidesAreRead() throws IOException {
    for (int frames : new int[] {0, 1, 2, 15, 16, 17, 96, 4095, 4097}) {
      double[] x = sine(96_000, frames, 5000, 0.5);
      Spectrogram s = Spectrogram.of(of(x), AudioFormat.pcm(96_000, 1, 24), frames, 960, ROWS);
      assertThat(s.columns()).isEqualTo(Math.min(960, frames));
      for (float[] column : s.db()) {
        for (float db : column) {
          assertThat(db).isFinite().isLessThan(6f);
        }
      }
    }
  }
}
