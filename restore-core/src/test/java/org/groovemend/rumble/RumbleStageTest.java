package org.groovemend.rumble;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RumbleStageTest {
  private static final int RATE = 8_000;

  private static RumbleStage defaults() {
    return new RumbleStage(RumbleParameters.defaults(), Treated.BOTH);
  }

  private static double[] noise(int frames, long seed) {
    Random random = new Random(seed);
    double[] x = new double[frames];
    for (int i = 0; i < frames; i++) {
      x[i] = 0.1 * random.nextGaussian();
    }
    return x;
  }

  private static double[] plus(double[] x, double constant) {
    return Arrays.stream(x).map(v -> v + constant).toArray();
  }

  private static double largest(double[] x) {
    return Arrays.stream(x).map(Math::abs).max().orElse(0);
  }

  /** The grid of the low rate is counted from frame 0, so the cut cannot show. */
  @Test
  void segmentsOfAnyLengthGiveTheSameBits() {
    double[][] x = {noise(6 * RATE, 1), noise(6 * RATE, 2)};
    Arrays.fill(x[1], 2 * RATE, 3 * RATE, 0);
    double[][] whole = Treated.whole(defaults(), RATE, x);
    for (int segment : new int[] {1_021, 7_777, 16_384}) {
      assertThat(Treated.inSegments(defaults(), RATE, x, segment)).isDeepEqualTo(whole);
    }
  }

  /** One warped turn, an offset and rumble gone; the lowest string of a double bass kept. */
  @ParameterizedTest
  @ValueSource(ints = {44_100, 96_000})
  void warpAndOffsetGoTheBassStays(int rate) {
    int frames = 8 * rate;
    double[] bass = Treated.tone(frames, rate, 41.2, 0.2);
    double[] warp = Treated.tone(frames, rate, 0.5556, 0.3);
    double[] rumble = Treated.tone(frames, rate, 33, 0.05);
    double[][] x = new double[2][frames];
    for (int i = 0; i < frames; i++) {
      x[0][i] = bass[i] + warp[i] + rumble[i] + 0.01;
      x[1][i] = bass[i] - warp[i] - rumble[i] + 0.01;
    }
    double[][] y = Treated.whole(defaults(), rate, x);
    double[] left = new double[2 * rate];
    for (int i = 0; i < left.length; i++) {
      left[i] = y[0][3 * rate + i] - y[1][3 * rate + i];
    }
    // by the formula 61 dB of the vertical 33 Hz, more than 500 of the warp
    assertThat(Treated.rms(left, 0, left.length)).isLessThan(0.1 / Math.sqrt(2) * 1.0e-3);
    double kept = Treated.rms(y[0], 3 * rate, 5 * rate) / Treated.rms(bass, 3 * rate, 5 * rate);
    assertThat(20 * StrictMath.log10(kept)).isCloseTo(0, within(0.01));
  }

  /** A constant is taken out to the first and last frame: nothing is left that could thump. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 8, 79, 800, 40_000})
  void aConstantLeavesNothing(int frames) {
    double[][] x = {plus(new double[frames], 0.25), plus(new double[frames], -0.125)};
    for (double[] channel : Treated.whole(defaults(), RATE, x)) {
      assertThat(largest(channel)).isLessThan(1e-14);
    }
  }

  /** Digital silence before, between and after stays; the offset beside it goes all the same. */
  @Test
  void digitalSilenceStays() {
    double[] x = plus(noise(4 * RATE, 3), 0.05);
    Arrays.fill(x, 0, RATE / 2, 0);
    Arrays.fill(x, 2 * RATE, 2 * RATE + 900, 0);
    Arrays.fill(x, 4 * RATE - 5, 4 * RATE, 0);
    double[] y = Treated.whole(defaults(), RATE, new double[][] {x})[0];
    for (int i = 0; i < x.length; i++) {
      if (i < RATE / 2 || (i >= 2 * RATE && i < 2 * RATE + 900) || i >= 4 * RATE - 5) {
        assertThat(y[i]).isZero();
      }
    }
    // the same stretch as a side of its own
    double[] alone =
        Treated.whole(defaults(), RATE, new double[][] {Arrays.copyOfRange(x, RATE / 2, 2 * RATE)})[
            0];
    for (int i = 0; i < alone.length; i++) {
      assertThat(y[RATE / 2 + i]).isCloseTo(alone[i], within(1e-6));
    }
  }

  /** Shorter silence is sound like any other, or a faded 16-bit side would be cut to pieces. */
  @Test
  void aShortRunOfZerosIsTreated() {
    double[] x = plus(new double[4 * RATE], 0.05);
    Arrays.fill(x, 2 * RATE, 2 * RATE + 700, 0);
    double[] y = Treated.whole(defaults(), RATE, new double[][] {x})[0];
    assertThat(Math.abs(y[2 * RATE + 350])).isGreaterThan(0.001);
  }

  @Test
  void aDeadChannelStaysDeadAndTheOtherLosesOnlyTheLowPart() {
    double[][] x = {noise(4 * RATE, 4), new double[4 * RATE]};
    double[][] y = Treated.whole(defaults(), RATE, x);
    assertThat(largest(y[1])).isZero();
    assertThat(y[0]).isEqualTo(Treated.whole(defaults(), RATE, new double[][] {x[0]})[0]);
  }

  /** 1 / (1 + 1.6^8) of it is left by the closed form: -32.86 dB. */
  @Test
  void aFullScaleToneOfTenHertzIsLowered() {
    double[] x = Treated.tone(12 * RATE, RATE, 10, 1);
    double[] y = Treated.whole(defaults(), RATE, new double[][] {x})[0];
    double left = Treated.rms(y, 4 * RATE, 8 * RATE) / Treated.rms(x, 4 * RATE, 8 * RATE);
    assertThat(20 * StrictMath.log10(left)).isCloseTo(-32.859, within(0.01));
    // about the ends, where the mirror image breaks the tone, less
    assertThat(largest(y)).isLessThan(1.1);
  }

  @Test
  void onlyWhatTheFindingSays() {
    double[][] x = {noise(2 * RATE, 5), noise(2 * RATE, 6)};
    RumbleParameters p = RumbleParameters.defaults();
    double[][] vertical = Treated.whole(new RumbleStage(p, Treated.finding(false, true)), RATE, x);
    double[][] low = Treated.whole(new RumbleStage(p, Treated.finding(true, false)), RATE, x);
    for (int i = 0; i < 2 * RATE; i++) {
      assertThat(vertical[0][i] + vertical[1][i]).isCloseTo(x[0][i] + x[1][i], within(1e-15));
    }
    assertThat(low[0]).isEqualTo(Treated.whole(defaults(), RATE, new double[][] {x[0]})[0]);
    assertThat(new RumbleStage(p, Treated.finding(false, false)).neutral()).isTrue();
  }

  /**
   * Short pulses of full scale without the low part between them swing beyond full scale: such
   * samples are set to the end of the range and counted, none wraps.
   */
  @Test
  void peaksThatRiseAreLimitedAndCounted() throws IOException {
    int frames = 4 * RATE;
    long top = (1 << 15) - 1;
    long[] words = new long[frames];
    for (int i = 0; i < frames; i++) {
      words[i] = i % 400 < 40 ? top : -top - 1;
    }
    AudioFormat format = AudioFormat.pcm(RATE, 1, 16);
    WordSource side =
        new WordSource() {
          @Override
          public AudioFormat format() {
            return format;
          }

          @Override
          public long frames() {
            return frames;
          }

          @Override
          public void readWords(long firstFrame, int count, long[][] into, int offset) {
            System.arraycopy(words, (int) firstFrame, into[0], offset, count);
          }
        };
    RumbleParameters p = new RumbleParameters(40, 0, 4, RumbleParameters.VerticalPart.JUDGED, -60);
    RumbleStage stage = new RumbleStage(p, Treated.BOTH);
    double[] exact =
        Treated.whole(
            stage, RATE, new double[][] {Arrays.stream(words).mapToDouble(w -> w).toArray()})[0];
    assertThat(largest(exact)).isGreaterThan(1.05 * top);
    int[] at = {0};
    long clipped =
        new SideChain(List.of(stage))
            .run(
                side,
                Crew.alone(),
                1,
                (id, repair) -> {},
                (block, offset, count) -> {
                  for (int i = 0; i < count; i++, at[0]++) {
                    double limited = Math.max(-top - 1, Math.min(top, exact[at[0]]));
                    // dither of one step and rounding
                    assertThat((double) block[0][offset + i]).isCloseTo(limited, within(1.6));
                  }
                },
                Progress.SILENT);
    assertThat(at[0]).isEqualTo(frames);
    assertThat(clipped).isPositive();
  }
}
