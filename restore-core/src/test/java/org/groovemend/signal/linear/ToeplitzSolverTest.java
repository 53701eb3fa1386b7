package org.groovemend.signal.linear;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;

/** Against the general decomposition of commons-math. */
class ToeplitzSolverTest {
  @Test
  void agreesWithAGeneralDecomposition() {
    Random random = new Random(3);
    ToeplitzSolver solver = new ToeplitzSolver();
    for (int n : new int[] {1, 2, 3, 7, 40, 21}) {
      for (int length : new int[] {1, Math.min(n, 4), n}) {
        double[] t = new double[length];
        double sum = 0;
        for (int k = 1; k < length; k++) {
          t[k] = random.nextGaussian();
          sum += 2 * Math.abs(t[k]);
        }
        t[0] = sum + 0.1;
        RealMatrix full = MatrixUtils.createRealMatrix(n, n);
        for (int i = 0; i < n; i++) {
          for (int j = 0; j < n; j++) {
            int k = Math.abs(i - j);
            full.setEntry(i, j, k < length ? t[k] : 0);
          }
        }
        double[] rhs = random.doubles(n, -1, 1).toArray();
        CholeskyDecomposition general = new CholeskyDecomposition(full);
        double[] expected = general.getSolver().solve(MatrixUtils.createRealVector(rhs)).toArray();
        double[] x = rhs.clone();
        assertThat(solver.solve(t, length, x, n)).isTrue();
        assertThat(x).containsExactly(expected, within(1e-10));
        assertThat(solver.inverseTrace())
            .isCloseTo(general.getSolver().getInverse().getTrace(), within(1e-9));
        double energy = 0;
        double drops = 0;
        for (int i = 0; i < n; i++) {
          energy += rhs[i] * expected[i];
          drops += solver.drops()[i];
        }
        assertThat(drops).isCloseTo(energy, within(1e-9));
      }
    }
  }

  @Test
  void refusesAMatrixThatIsNotPositiveDefinite() {
    double[] rhs = {1, 2, 3};
    assertThat(new ToeplitzSolver().solve(new double[] {1, 2}, 2, rhs, 3)).isFalse();
    assertThat(new ToeplitzSolver().solve(new double[] {0}, 1, rhs, 3)).isFalse();
    assertThat(rhs).containsExactly(1, 2, 3);
  }
}
