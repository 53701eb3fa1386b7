package org.groovemend.deliverable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class CopyMeterTest {

  private static final int RATE = 48_000;

  /** Adds a sine of 1 kHz on both channels, as the cases of EBU Tech 3341 have it. */
  private static void tone(CopyMeter meter, double dbfs, double seconds) {
    int n = (int) (seconds * RATE);
    double[][] x = new double[2][n];
    double peak = StrictMath.pow(10, dbfs / 20);
    for (int i = 0; i < n; i++) {
      x[0][i] = peak * StrictMath.sin(2 * Math.PI * 1000 * i / RATE);
      x[1][i] = x[0][i];
    }
    meter.accept(x, n);
  }

  /** EBU Tech 3341, case 1: a stereo sine of 1 kHz at -23 dBFS reads -23 LUFS. */
  @Test
  void oneToneReadsItsLevel() {
    CopyMeter meter = new CopyMeter();
    meter.begin(RATE, 2);
    tone(meter, -23, 20);
    CopyLevel level = meter.finish();
    assertThat(level.loudness().integratedLufs()).isCloseTo(-23, within(0.1));
    assertThat(level.truePeakDbtp()).isCloseTo(-23, within(0.2));
  }

  /**
   * Case 3 of EBU Tech 3341 cut into its three tones, each a piece of the set: the gates see the
   * set, so it reads -23 as the whole does, where the pieces alone would read -36, -23 and -36.
   */
  @Test
  void aSetIsGatedAsAWhole() {
    CopyMeter meter = new CopyMeter();
    for (double[] piece : new double[][] {{-36, 10}, {-23, 60}, {-36, 10}}) {
      meter.begin(RATE, 2);
      tone(meter, piece[0], piece[1]);
    }
    CopyLevel level = meter.finish();
    assertThat(level.loudness().integratedLufs()).isCloseTo(-23, within(0.1));
    assertThat(level.loudness().mostShortTermLufs()).isCloseTo(-23, within(0.1));
    assertThat(level.truePeakDbtp()).isCloseTo(-23, within(0.2));
  }

  /** A set of one is the piece; a second one of another rate and of one channel changes it. */
  @Test
  void piecesMayDifferInRateAndChannels() {
    CopyMeter meter = new CopyMeter();
    meter.begin(RATE, 2);
    tone(meter, -23, 20);
    meter.begin(96_000, 1);
    double[][] x = new double[1][96_000 * 20];
    for (int i = 0; i < x[0].length; i++) {
      x[0][i] = StrictMath.pow(10, -20 / 20.0) * StrictMath.sin(2 * Math.PI * 1000 * i / 96_000);
    }
    meter.accept(x, x[0].length);
    CopyLevel level = meter.finish();
    // -20 dBFS in one channel is as loud as -23 in two
    assertThat(level.loudness().integratedLufs()).isCloseTo(-23, within(0.1));
    assertThat(level.truePeakDbtp()).isCloseTo(-20, within(0.2));
  }

  @Test
  void silenceHasNoLoudness() {
    CopyMeter meter = new CopyMeter();
    meter.begin(RATE, 1);
    meter.accept(new double[1][RATE], RATE);
    CopyLevel level = meter.finish();
    assertThat(level.loudness().integratedLufs()).isEqualTo(Double.NEGATIVE_INFINITY);
    assertThat(level.truePeakDbtp()).isEqualTo(Double.NEGATIVE_INFINITY);
    GainPlan plan = GainPlan.toLoudness(level, new LoudnessWish(-23, false, -1));
    assertThat(plan.gainDb()).isZero();
    assertThat(plan.words()).contains("cannot be told");
  }
}
