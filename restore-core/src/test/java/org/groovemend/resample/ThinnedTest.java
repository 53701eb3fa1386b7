package org.groovemend.resample;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import org.groovemend.stage.ArrayRanges;
import org.junit.jupiter.api.Test;

/** Against tones by formula. */
class ThinnedTest {
  private static final int RATE = 96_000;
  private static final int STEP = 4;

  private static Thinned tone(double hertz) {
    return new Thinned(
        ArrayRanges.of(RATE, RATE, i -> Math.cos(2 * Math.PI * hertz * i / RATE)), STEP, 5500, 100);
  }

  @Test
  void whatIsKeptLiesWhereItLay() throws IOException {
    for (double hertz : new double[] {0, 100, 1000, 5400}) {
      double[] y = ArrayRanges.all(tone(hertz))[0];
      assertThat(y).hasSize(RATE / STEP);
      for (int i = 100; i < y.length - 100; i++) {
        // 100 dB
        assertThat(y[i]).isCloseTo(Math.cos(2 * Math.PI * hertz * i * STEP / RATE), within(2e-5));
      }
    }
  }

  /** 19 kHz would come back at 5 kHz, 24 kHz as a constant. */
  @Test
  void whatWouldBeFoldedIntoThatIsGone() throws IOException {
    for (double hertz : new double[] {18_600, 19_000, 24_000, 29_000, 47_000}) {
      double[] y = ArrayRanges.all(tone(hertz))[0];
      for (int i = 100; i < y.length - 100; i++) {
        assertThat(Math.abs(y[i])).isLessThan(2e-5);
      }
    }
  }

  @Test
  void anyRangeIsTheSame() throws IOException {
    Thinned side = tone(700);
    double[] all = ArrayRanges.all(side)[0];
    double[][] part = new double[1][501];
    for (int from : new int[] {0, 3, 1000, all.length - 501}) {
      side.read(from, 501, part);
      assertThat(part[0]).containsExactly(java.util.Arrays.copyOfRange(all, from, from + 501));
    }
  }

  @Test
  void aStepThatDoesNotDivideTheRateIsRefused() {
    ArrayRanges side = ArrayRanges.of(44_100, 100, i -> 0);
    assertThatThrownBy(() -> new Thinned(side, 8, 1000, 80)).hasMessageContaining("44100");
  }
}
