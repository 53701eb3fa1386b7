package org.groovemend.signal.window;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FractionalShiftTest {
  private static final double EDGE = 20.0 / 44.1;

  /** Sines between their samples, by their formula. */
  @ParameterizedTest
  @ValueSource(doubles = {0.5, -0.5, 0.013, -0.3, 3.77, -12.25})
  void sinesUpToTheEdgeAreExactToAHundredDecibels(double by) {
    FractionalShift shift = new FractionalShift(EDGE, 100);
    int n = 400;
    double[] x = new double[n];
    double[] y = new double[n];
    double worst = 0;
    for (double f = 0; f <= EDGE; f += EDGE / 97) {
      for (int i = 0; i < n; i++) {
        x[i] = Math.sin(2 * Math.PI * f * i + 0.4);
      }
      int from = shift.half() + 15;
      int count = n - 2 * from;
      shift.shift(x, n, from, by, y, 0, count);
      for (int i = 0; i < count; i++) {
        double exact = Math.sin(2 * Math.PI * f * (from + i + by) + 0.4);
        worst = Math.max(worst, Math.abs(y[i] - exact));
      }
    }
  }

  @Test
  void wholeShiftsMoveSamplesBitForBitAndTheEndsAreZero() {
    FractionalShift shift = new FractionalShift(0.42, 100);
    Random random = new Random(1);
    double[] x = random.doubles(50).toArray();
    double[] y = new double[60];
    shift.shift(x, 50, -5, 3, y, 0, 60);
    for (int i = 0; i < 60; i++) {
      int from = i - 5 + 3;
      assertThat(y[i]).isEqualTo(from < 0 || from >= 50 ? 0 : x[from]);
    }
  }

  @Test
  void forthAndBackIsTheSame() {
    FractionalShift shift = new FractionalShift(0.42, 100);
    int n = 600;
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      x[i] = Math.sin(0.9 * i) + Math.cos(2.1 * i);
    }
    double[] y = new double[n];
    double[] z = new double[n];
    shift.shift(x, n, 0, 0.37, y, 0, n);
    shift.shift(y, n, 0, -0.37, z, 0, n);
    for (int i = 100; i < n - 100; i++) {
      assertThat(Math.abs(z[i] - x[i])).isLessThan(1e-4);
    }
  }
}
