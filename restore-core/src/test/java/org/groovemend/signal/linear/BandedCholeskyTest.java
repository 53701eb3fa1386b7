package org.groovemend.signal.linear;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.junit.jupiter.api.Test;

/** Against the dense Cholesky decomposition of Apache Commons Math. */
class BandedCholeskyTest {
  @Test
  void agreesWithADenseSolver() {
    Random random = new Random(7);
    BandedCholesky banded = new BandedCholesky();
    for (int n : new int[] {1, 2, 9, 60}) {
      for (int w : new int[] {0, 1, 8, 59}) {
        int width = Math.min(w, n - 1);
        double[][] m = new double[n][n];
        banded.reset(n, width);
        for (int j = 0; j < n; j++) {
          for (int i = j; i <= Math.min(n - 1, j + width); i++) {
            double v = i == j ? width + 2 : random.nextDouble() - 0.5;
            m[i][j] = v;
            m[j][i] = v;
            banded.set(i, j, v);
          }
        }
        double[] rhs = random.doubles(n, -1, 1).toArray();
        var dense = new CholeskyDecomposition(new Array2DRowRealMatrix(m)).getSolver();
        double[] expected = dense.solve(new ArrayRealVector(rhs)).toArray();
        assertThat(banded.factor()).isTrue();
        banded.solve(rhs);
        assertThat(rhs).containsExactly(expected, within(1e-12));
        assertThat(banded.inverseTrace()).isCloseTo(dense.getInverse().getTrace(), within(1e-11));
        double[] inverse = banded.inverseBand();
        for (int j = 0; j < n; j++) {
          for (int i = j; i <= Math.min(n - 1, j + width); i++) {
            assertThat(inverse[j * (width + 1) + i - j])
                .isCloseTo(dense.getInverse().getEntry(i, j), within(1e-12));
          }
        }
        assertThat(1 / (banded.pivot(n - 1) * banded.pivot(n - 1)))
            .isCloseTo(dense.getInverse().getEntry(n - 1, n - 1), within(1e-12));
      }
    }
  }

  @Test
  void refusesAMatrixThatIsNotPositive() {
    BandedCholesky banded = new BandedCholesky();
    banded.reset(2, 1);
    banded.set(0, 0, 1);
    banded.set(1, 0, 2);
    banded.set(1, 1, 1);
    assertThat(banded.factor()).isFalse();
  }
}
