package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;

/**
 * Fills in sound under hiss against the best linear estimate of the sound without it, from the true
 * covariances by dense linear algebra (Gauss and Markov; Apache Commons Math solves).
 */
class NoisyGapReferenceTest {
  private static final int RATE = 44_100;
  private static final int N = 60_000;
  private static final int GAP = 22;
  private static final int CONTEXT = 250;
  private static final double HISS = 0.012;

  private final Random random = new Random(12);
  private final double[] sound = new double[N];
  private final double[] noisy = new double[N];

  @Test
  void theFillIsNearTheBestEstimateOfTheSoundAndMakesNoHiss() {
    double[] covariance = make();
    RealMatrix weights = bestWeights(covariance);
    ClickInterpolator interpolator =
        new ClickInterpolator(ClickGeometry.of(ClickParameters.defaults(), RATE), 3);
    double[] out = new double[interpolator.longestGap()];
    double best = 0;
    double filled = 0;
    double toNoisy = 0;
    int samples = 0;
    for (int at = 8000; at < N - 8000; at += 700) {
      double[] estimate = weights.operate(around(at));
      boolean[] gaps = new boolean[N];
      Arrays.fill(gaps, at, at + GAP, true);
      double[] damaged = noisy.clone();
      Arrays.fill(damaged, at, at + GAP, 0);
      interpolator.fill(damaged, gaps, at, at + GAP, at + GAP, 0, N, out);
      for (int i = 0; i < GAP; i++) {
        best += square(estimate[i] - sound[at + i]);
        filled += square(out[i] - sound[at + i]);
        toNoisy += square(out[i] - noisy[at + i]);
        samples++;
      }
    }
    // 2 dB from the best there is for one who knows the covariances; the model is fitted to 8,000
    // noisy samples (1.9 dB when written)
    assertThat(10 * Math.log10(filled / best)).isBetween(-0.2, 2.0);
    // the hiss of the gap is nowhere in the fill
    assertThat((toNoisy - filled) / samples / (HISS * HISS)).isBetween(0.8, 1.2);
  }

  private static double square(double v) {
    return v * v;
  }

  private double[] around(int at) {
    double[] known = new double[2 * CONTEXT];
    System.arraycopy(noisy, at - CONTEXT, known, 0, CONTEXT);
    System.arraycopy(noisy, at + GAP, known, CONTEXT, CONTEXT);
    return known;
  }

  /** Makes the sound and returns its covariance by lag. */
  private double[] make() {
    double[] a = {1, -2.7607, 3.8106, -2.6535, 0.9238};
    double[] response = new double[4000];
    response[0] = 1;
    for (int n = 1; n < response.length; n++) {
      for (int k = 1; k < 5 && k <= n; k++) {
        response[n] -= a[k] * response[n - k];
      }
    }
    double excitation = 1e-3;
    for (int n = 4; n < N; n++) {
      sound[n] = excitation * random.nextGaussian();
      for (int k = 1; k < 5; k++) {
        sound[n] -= a[k] * sound[n - k];
      }
    }
    for (int n = 0; n < N; n++) {
      noisy[n] = sound[n] + HISS * random.nextGaussian();
    }
    double[] covariance = new double[2 * CONTEXT + GAP];
    for (int lag = 0; lag < covariance.length; lag++) {
      for (int n = 0; n + lag < response.length; n++) {
        covariance[lag] += excitation * excitation * response[n] * response[n + lag];
      }
    }
    return covariance;
  }

  private static RealMatrix bestWeights(double[] covariance) {
    int known = 2 * CONTEXT;
    RealMatrix among = new Array2DRowRealMatrix(known, known);
    RealMatrix across = new Array2DRowRealMatrix(known, GAP);
    for (int i = 0; i < known; i++) {
      int p = i < CONTEXT ? i : i + GAP;
      for (int j = 0; j < known; j++) {
        int q = j < CONTEXT ? j : j + GAP;
        among.setEntry(i, j, covariance[Math.abs(p - q)] + (i == j ? HISS * HISS : 0));
      }
      for (int j = 0; j < GAP; j++) {
        across.setEntry(i, j, covariance[Math.abs(p - CONTEXT - j)]);
      }
    }
    return new CholeskyDecomposition(among).getSolver().solve(across).transpose();
  }
}
