package org.groovemend.transfer;

import static org.assertj.core.api.Assertions.assertThat;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** Music that the test itself clipped, hard, softly, and below full scale. */
class ClippingMeterTest {
  private static final int MUSIC = (int) WornSide.musicStart();

  private static Clipping clip(double[][] x) {
    ClippingMeter meter = new ClippingMeter(WornSide.RATE, 2);
    WornSide.feed(meter, null, x, 65_536);
    return meter.finish().get(0);
  }

  private static double[][] side() {
    return WornSide.samples(WornSide.words(24), 24);
  }

  @Test
  void aSideWithinItsRangeIsNotClipped() {
    Clipping none = clip(side());
    assertThat(none.runs()).isZero();
    assertThat(none.crowdedUpDbfs()).isNaN();
    assertThat(none.crowdedDownDbfs()).isNaN();
  }

  @Test
  void flatTopsOfMusicBelowFullScaleAreCounted() {
    double[][] x = side();
    // -16 dBFS: below the music's peaks of about -12 dBFS
    long expected = limit(x, 0.16);
    Clipping found = clip(x);
    assertThat(expected).isGreaterThan(50);
    assertThat(found.runs()).isEqualTo(expected);
    assertThat(found.runsInMusic()).isGreaterThan(expected * 8 / 10);
    assertThat(found.levelDbfs()).isCloseTo(20 * Math.log10(0.16), Offset.offset(0.01));
  }

  @Test
  void aClippedClickIsNoClippedMusic() {
    double[][] x = side();
    for (double[] channel : x) {
      for (int k = 0; k < 5; k++) {
        int at = MUSIC + 100_000 + 150_000 * k;
        java.util.Arrays.fill(channel, at, at + 8, 0.99);
      }
    }
    Clipping found = clip(x);
    assertThat(found.runs()).isEqualTo(5);
    assertThat(found.runsInMusic()).isZero();
    assertThat(found.longest()).isEqualTo(8);
    assertThat(found.places().get(0).frame()).isEqualTo(MUSIC + 100_000);
  }

  @Test
  void anOverloadedStageIsTold() {
    double[][] x = side();
    for (double[] channel : x) {
      for (int i = 0; i < channel.length; i++) {
        // tops that still bend a little, as behind an analogue stage
        double over = Math.max(0, Math.abs(channel[i]) - 0.12);
        channel[i] =
            Math.signum(channel[i])
                * (Math.min(Math.abs(channel[i]), 0.12) + 0.003 * Math.tanh(over / 0.05));
      }
    }
    Clipping found = clip(x);
    assertThat(found.crowdedUpDbfs()).isCloseTo(20 * Math.log10(0.121), Offset.offset(0.3));
    assertThat(found.crowdedDownDbfs()).isCloseTo(20 * Math.log10(0.121), Offset.offset(0.3));
  }

  @Test
  void aToneIsNotOverload() {
    double[][] x = new double[2][5 * WornSide.RATE];
    for (int i = 0; i < x[0].length; i++) {
      x[0][i] = 0.5 * Math.sin(2 * Math.PI * 997.0 * i / WornSide.RATE);
      x[1][i] = x[0][i];
    }
    assertThat(clip(x).crowdedUpDbfs()).isNaN();
    assertThat(clip(x).runs()).isZero();
  }

  /** Limits and counts the runs of three or more that come of it in the left wall: the slow way. */
  private static long limit(double[][] x, double level) {
    for (double[] channel : x) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] = Math.max(-level, Math.min(level, channel[i]));
      }
    }
    long runs = 0;
    for (int i = 0; i < x[0].length; ) {
      int j = i;
      while (j < x[0].length && x[0][j] == x[0][i]) {
        j++;
      }
      runs += j - i >= 3 && Math.abs(x[0][i]) == level ? 1 : 0;
      i = j;
    }
    return runs;
  }
}
