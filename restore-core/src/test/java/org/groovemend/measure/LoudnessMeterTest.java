package org.groovemend.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.groovemend.audio.AudioFormat;
import org.groovemend.click.BenchWav;
import org.groovemend.signal.predict.ReferenceTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * ITU-R BS.1770 and the computed cases of EBU Tech 3341 and 3342; tables in
 * fixtures/reference/loudness, recipes as written there. Cases 7 and 8 of the first and 5 and 6 of
 * the second are authentic programme, which only the EBU has, and are not run. How long the
 * silences of cases 10, 11, 13 and 14 are is from memory.
 */
class LoudnessMeterTest {
  private static final String FOLDER = "/fixtures/reference/loudness/";
  private static final int RATE = 48_000;

  @TempDir private Path dir;

  @Test
  void coefficientsAreThePrintedOnes() throws IOException {
    for (List<String> row : ReferenceTable.rows(FOLDER + "k_weighting.csv")) {
      KWeighting k = new KWeighting(Integer.parseInt(row.get(0)));
      for (int i = 0; i < 5; i++) {
        assertThat(k.shelf()[i]).isCloseTo(Double.parseDouble(row.get(2 + i)), within(1e-12));
      }
      assertThat(k.highPass()[3]).isCloseTo(Double.parseDouble(row.get(7)), within(1e-12));
      assertThat(k.highPass()[4]).isCloseTo(Double.parseDouble(row.get(8)), within(1e-12));
      assertThat(k.highPass()).startsWith(1, -2, 1);
    }
  }

  /**
   * @param parts pairs of peak level in dBFS and seconds
   */
  private static Loudness tones(int rate, int channels, double hertz, double... parts) {
    LoudnessMeter meter = new LoudnessMeter(rate, channels);
    long at = 0;
    double[][] block = new double[channels][1];
    for (int p = 0; p < parts.length; p += 2) {
      double peak = StrictMath.pow(10, parts[p] / 20);
      long end = at + Math.round(parts[p + 1] * rate);
      for (; at < end; at++) {
        double v = peak * StrictMath.sin(2 * Math.PI * hertz * at / rate);
        for (double[] channel : block) {
          channel[0] = v;
        }
        meter.accept(block, 1);
      }
    }
    return meter.finish();
  }

  private static double[] repeated(int times, double... parts) {
    double[] all = new double[times * parts.length];
    for (int i = 0; i < all.length; i++) {
      all[i] = parts[i % parts.length];
    }
    return all;
  }

  private static double computed(String name) throws IOException {
    for (List<String> row : ReferenceTable.rows(FOLDER + "loudness_cases.csv")) {
      if (row.get(0).equals(name)) {
        return Double.parseDouble(row.get(4).split("\\.\\.")[0]);
      }
    }
    throw new AssertionError(name);
  }

  private static void holds(String name, double measured, double expected, double tolerance)
      throws IOException {
    assertThat(measured).as(name).isCloseTo(expected, within(tolerance));
    // and to what an independent computation gives; bins are 0.01 LU
    assertThat(measured).as(name).isCloseTo(computed(name), within(0.006));
  }

  @Test
  void fullScaleAt997HertzIsMinusThreePointNoughtOne() throws IOException {
    holds("bs1770-997", tones(RATE, 1, 997, 0, 20).integratedLufs(), -3.01, 0.01);
  }

  @Test
  void integratedCases() throws IOException {
    ToDoubleFunction<Loudness> i = Loudness::integratedLufs;
    Loudness one = tones(RATE, 2, 1000, -23, 20);
    holds("3341-1", i.applyAsDouble(one), -23, 0.1);
    holds("3341-1", one.mostMomentaryLufs(), -23, 0.1);
    holds("3341-1", one.mostShortTermLufs(), -23, 0.1);
    holds("3341-2", i.applyAsDouble(tones(RATE, 2, 1000, -33, 20)), -33, 0.1);
    holds("3341-3", i.applyAsDouble(tones(RATE, 2, 1000, -36, 10, -23, 60, -36, 10)), -23, 0.1);
    Loudness four = tones(RATE, 2, 1000, -72, 10, -36, 10, -23, 60, -36, 10, -72, 10);
    holds("3341-4", i.applyAsDouble(four), -23, 0.1);
    holds("3341-5", i.applyAsDouble(tones(RATE, 2, 1000, -26, 20, -20, 20.1, -26, 20)), -23, 0.1);
    // other rates
    for (int rate : new int[] {44_100, 96_000, 192_000}) {
      assertThat(i.applyAsDouble(tones(rate, 2, 1000, -23, 5))).isCloseTo(-23, within(0.1));
    }
  }

  @Test
  void surroundChannelsWeighMore() throws IOException {
    LoudnessMeter meter = new LoudnessMeter(RATE, new double[] {1, 1, 1, 1.41, 1.41});
    double[] peaks = {-28, -28, -24, -30, -30};
    double[][] block = new double[5][1];
    for (int n = 0; n < 20 * RATE; n++) {
      for (int c = 0; c < 5; c++) {
        block[c][0] =
            StrictMath.pow(10, peaks[c] / 20) * StrictMath.sin(2 * Math.PI * 1000 * n / RATE);
      }
      meter.accept(block, 1);
    }
    holds("3341-6", meter.finish().integratedLufs(), -23, 0.1);
  }

  @Test
  void shortTermAndMomentary() throws IOException {
    Loudness nine = tones(RATE, 2, 1000, repeated(5, -20, 1.34, -30, 1.66));
    holds("3341-9", nine.mostShortTermLufs(), -23, 0.1);
    Loudness twelve = tones(RATE, 2, 1000, repeated(25, -20, 0.18, -30, 0.22));
    assertThat(twelve.mostMomentaryLufs()).isCloseTo(-23, within(0.1));
  }

  /** A tone of 3 s or 400 ms, wherever it begins, file by file. */
  @Test
  void theLoudestWindowIsFoundWhereverItBegins() {
    for (int n = 0; n < 20; n++) {
      Loudness ten = tones(RATE, 2, 1000, -200, 0.15 * n, -23, 3, -200, 1);
      assertThat(ten.mostShortTermLufs()).as("3341-10-%d", n + 1).isCloseTo(-23, within(0.1));
      Loudness thirteen = tones(RATE, 2, 1000, -200, 0.02 * n, -23, 0.4, -200, 1);
      assertThat(thirteen.mostMomentaryLufs()).as("3341-13-%d", n + 1).isCloseTo(-23, within(0.1));
    }
  }

  /** The same in one go, every tone 1 dB louder; at another rate too. */
  @Test
  void theLoudestWindowGrowsWithTheTones() {
    for (int rate : new int[] {RATE, 44_100}) {
      for (int n = 0; n < 20; n++) {
        double[] eleven = new double[6 * (n + 1)];
        double[] fourteen = new double[6 * (n + 1)];
        for (int k = 0; k <= n; k++) {
          double level = k - 38;
          put(eleven, 6 * k, -200, 0.15 * k, level, 3, -200, 3 - 0.15 * k);
          put(fourteen, 6 * k, -200, 0.02 * k, level, 0.4, -200, 0.4 - 0.02 * k);
        }
        if (n % 5 == 4) {
          assertThat(tones(rate, 2, 1000, eleven).mostShortTermLufs())
              .as("3341-11, segment %d", n + 1)
              .isCloseTo(n - 38, within(0.1));
        }
        assertThat(tones(rate, 2, 1000, fourteen).mostMomentaryLufs())
            .as("3341-14, segment %d", n + 1)
            .isCloseTo(n - 38, within(0.1));
      }
    }
  }

  private static void put(double[] into, int at, double... values) {
    System.arraycopy(values, 0, into, at, values.length);
  }

  @Test
  void range() throws IOException {
    assertThat(tones(RATE, 2, 1000, -20, 20, -30, 20).rangeLu()).isCloseTo(10, within(1.0));
    assertThat(tones(RATE, 2, 1000, -20, 20, -15, 20).rangeLu()).isCloseTo(5, within(1.0));
    assertThat(tones(RATE, 2, 1000, -40, 20, -20, 20).rangeLu()).isCloseTo(20, within(1.0));
    assertThat(tones(RATE, 2, 1000, -50, 20, -35, 20, -20, 20, -35, 20, -50, 20).rangeLu())
        .isCloseTo(15, within(1.0));
  }

  @Test
  void silenceAndTooShort() {
    assertThat(tones(RATE, 1, 1000, -300, 1).integratedLufs()).isEqualTo(Double.NEGATIVE_INFINITY);
    assertThat(tones(RATE, 1, 1000, 0, 0.3).integratedLufs()).isEqualTo(Double.NEGATIVE_INFINITY);
    assertThat(tones(RATE, 1, 1000, 0, 0.3).rangeLu()).isZero();
  }

  /** Any cut into blocks gives the same bits. */
  @Test
  void blocksDoNotMatter() {
    double[] x = new Random(1).doubles(4 * RATE, -0.3, 0.3).toArray();
    LoudnessMeter whole = new LoudnessMeter(RATE, 1);
    whole.accept(new double[][] {x}, x.length);
    LoudnessMeter parts = new LoudnessMeter(RATE, 1);
    for (int at = 0; at < x.length; ) {
      int n = Math.min(x.length - at, 1 + at % 777);
      parts.accept(new double[][] {java.util.Arrays.copyOfRange(x, at, at + n)}, n);
      at += n;
    }
    assertThat(parts.finish()).isEqualTo(whole.finish());
  }

  /** ffmpeg's ebur128 as a meter, on noise that swells: prints to 0.1 LU. */
  @Test
  void agreesWithAnIndependentMeter() throws Exception {
    Random random = new Random(9);
    double[][] x = new double[2][20 * RATE];
    double low = 0;
    for (int n = 0; n < x[0].length; n++) {
      double swell = StrictMath.pow(10, (StrictMath.sin(n / (2.0 * RATE)) - 1.5) * 0.8);
      low += 0.1 * (random.nextGaussian() - low);
      x[0][n] = 0.5 * swell * low;
      x[1][n] = 0.2 * swell * random.nextGaussian() * 0.3;
    }
    Path file = dir.resolve("swell.wav");
    new BenchWav(AudioFormat.pcm(RATE, 2, 24), x).write(file);
    String said = ebur128(file);
    LoudnessMeter meter = new LoudnessMeter(RATE, 2);
    meter.accept(x, x[0].length);
    Loudness ours = meter.finish();
    assertThat(ours.integratedLufs()).isCloseTo(number(said, "I:"), within(0.06));
    assertThat(ours.rangeLu()).isCloseTo(number(said, "LRA:"), within(0.2));
  }

  private static String ebur128(Path file) throws Exception {
    Process process;
    try {
      process =
          new ProcessBuilder(
                  "ffmpeg", "-nostats", "-i", file.toString(), "-af", "ebur128", "-f", "null", "-")
              .redirectErrorStream(true)
              .start();
    } catch (IOException missing) {
      assumeTrue(false, "ffmpeg is not installed");
      throw missing;
    }
    String all = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).isZero();
    return all.substring(all.lastIndexOf("Summary:"));
  }

  private static double number(String text, String name) {
    Matcher m = Pattern.compile("\\b" + name + "\\s+(-?[0-9.]+)").matcher(text);
    assertThat(m.find()).as(text).isTrue();
    return Double.parseDouble(m.group(1));
  }
}
