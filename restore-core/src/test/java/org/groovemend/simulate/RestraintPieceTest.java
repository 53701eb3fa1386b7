package org.groovemend.simulate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class RestraintPieceTest {
  @ParameterizedTest
  @EnumSource(RestraintPiece.class)
  void isFiniteLoudStereoAndTheSameAgain(RestraintPiece piece) {
    double[][] x = piece.play(48_000, 2, 1);
    double peak = 0;
    double[] energy = new double[2];
    double difference = 0;
    for (int n = 0; n < x[0].length; n++) {
      for (int c = 0; c < 2; c++) {
        peak = Math.max(peak, Math.abs(x[c][n]));
        energy[c] += x[c][n] * x[c][n];
      }
      difference += (x[0][n] - x[1][n]) * (x[0][n] - x[1][n]);
    }
    assertThat(peak).isBetween(0.98, 1.0);
    assertThat(energy[0]).isBetween(energy[1] / 10, energy[1] * 10);
    assertThat(difference).isGreaterThan(0.003 * (energy[0] + energy[1]));
    assertThat(piece.play(48_000, 2, 1)).isDeepEqualTo(x);
    assertThat(piece.play(48_000, 2, 2)[0]).isNotEqualTo(x[0]);
  }

  /** The trap: pulses of one sign, several times as high as the other side of the wave. */
  @Test
  void mutedBrassIsAsymmetric() {
    double[] x = RestraintPiece.MUTED_BRASS.play(48_000, 2, 1)[1];
    double up = 0;
    double down = 0;
    for (double v : x) {
      up = Math.max(up, v);
      down = Math.max(down, -v);
    }
    assertThat(up / down).isGreaterThan(1.7);
  }

  @Test
  void aRateThatCannotHoldTheBandIsRefused() {
    assertThatThrownBy(() -> RestraintPiece.APPLAUSE.play(22_050, 2, 1))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
