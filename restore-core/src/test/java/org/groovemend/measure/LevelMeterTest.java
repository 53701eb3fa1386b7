package org.groovemend.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.Words;
import org.junit.jupiter.api.Test;

class LevelMeterTest {

  private static final AudioFormat FORMAT = AudioFormat.pcm(48_000, 1, 24);

  private static SideLevels measure(long[] words, int block) {
    LevelMeter meter = new LevelMeter(FORMAT);
    for (int at = 0; at < words.length; at += block) {
      int n = Math.min(block, words.length - at);
      long[][] part = {java.util.Arrays.copyOfRange(words, at, at + n)};
      double[][] samples = new double[1][n];
      Words.toDoubles(part[0], 0, samples[0], 0, n, FORMAT);
      meter.accept(part, samples, n);
    }
    return meter.finish();
  }

  private static long[] sine(int frames, double amplitude) {
    long[] words = new long[frames];
    for (int i = 0; i < frames; i++) {
      words[i] =
          Math.round(amplitude * ((1 << 23) - 1) * StrictMath.sin(2 * Math.PI * i * 1000 / 48_000));
    }
    return words;
  }

  /** A sine of peak 1.0 has an rms of 1/sqrt(2): -3.0103 dB. */
  @Test
  void fullScaleSineReadsMinusThreeDecibels() {
    SideLevels levels = measure(sine(48_000, 1), 1000);
    assertThat(levels.channels().get(0).rmsDbfs()).isCloseTo(-3.0103, within(1e-4));
    assertThat(levels.channels().get(0).peakDbfs()).isCloseTo(0, within(1e-5));
    assertThat(levels.channels().get(0).dcOffset()).isCloseTo(0, within(1e-7));
    assertThat(levels.channels().get(0).clippedRuns()).isZero();
  }

  @Test
  void flatTopsAreCountedWhateverTheirLevelAndWhereverBlocksAreCut() {
    long[] words = sine(4_800, 1);
    long top = 5_000_000;
    int longest = 0;
    int runs = 0;
    int run = 0;
    for (int i = 0; i < words.length; i++) {
      words[i] = Math.max(-top, Math.min(top, words[i]));
      run = Math.abs(words[i]) == top && i > 0 && words[i - 1] == words[i] ? run + 1 : 1;
      longest = Math.max(longest, run);
      runs += run == 3 ? 1 : 0;
    }
    for (int block : new int[] {1, 7, 4_800}) {
      ChannelLevels levels = measure(words, block).channels().get(0);
      assertThat(levels.clippedRuns()).isEqualTo(runs);
      assertThat(levels.longestClippedRun()).isEqualTo(longest);
    }
  }

  @Test
  void aHigherPeakLaterShowsThatEarlierPlateausWereNotClipping() {
    long[] words = sine(4_800, 0.5);
    words[10] = words[11] = words[12] = words[13] = 4_300_000;
    words[4_000] = 8_000_000;
    assertThat(measure(words, 100).channels().get(0).clippedRuns()).isZero();
  }

  @Test
  void theFewStepsOfDitherAloneAreNoClipping() {
    long[] words = new long[4_800];
    for (int i = 0; i < words.length; i++) {
      words[i] = i % 9 < 4 ? 256 : 0;
    }
    assertThat(measure(words, 100).channels().get(0).clippedRuns()).isZero();
  }

  @Test
  void sixteenBitsInTwentyFourAreSeen() {
    long[] words = sine(4_800, 0.7);
    assertThat(measure(words, 100).usedBits()).isEqualTo(24);
    for (int i = 0; i < words.length; i++) {
      words[i] = words[i] & ~0xffL;
    }
    assertThat(measure(words, 100).usedBits()).isEqualTo(16);
  }

  @Test
  void theLongestSilenceIsFoundAcrossBlocks() {
    long[] words = sine(4_800, 0.7);
    java.util.Arrays.fill(words, 100, 350, 0);
    java.util.Arrays.fill(words, 4_000, 4_800, 0);
    SideLevels levels = measure(words, 64);
    assertThat(levels.longestSilenceFrames()).isEqualTo(800);
    assertThat(levels.longestSilenceStart()).isEqualTo(4_000);
  }

  @Test
  void offsetAndSilenceAreFinite() {
    long[] words = new long[1_000];
    java.util.Arrays.fill(words, 8_388);
    assertThat(measure(words, 10).channels().get(0).dcOffset()).isCloseTo(0.001, within(1e-6));
    SideLevels silence = measure(new long[1_000], 10);
    assertThat(silence.channels().get(0).peakDbfs()).isEqualTo(Double.NEGATIVE_INFINITY);
    assertThat(silence.longestSilenceFrames()).isEqualTo(1_000);
    assertThat(silence.usedBits()).isZero();
  }
}
