package org.groovemend.thump;

import java.util.Arrays;
import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.window.WindowShape;

/**
 * Whether damage is seen before the front of a thump: a few milliseconds there against what the
 * music before them foretells. One instance per thread.
 */
final class EarlyDamage {
  private static final int ORDER = 32;
  private static final double LEARNED_SECONDS = 0.03;
  private static final double LOOKED_AT_SECONDS = 0.002;

  /** Prediction error, in variances, that one sample in 16,000 of a normal distribution exceeds. */
  private static final double UNHEARD_OF = 16;

  private final int learned;
  private final int lookedAt;
  private final double[] window;
  private final double[] r = new double[ORDER + 1];
  private final double[] a = new double[ORDER + 1];
  private final double[] residual;
  private final Autocorrelation autocorrelation;

  EarlyDamage(int rate) {
    learned = Math.max(4 * ORDER, (int) (LEARNED_SECONDS * rate));
    lookedAt = Math.max(1, (int) (LOOKED_AT_SECONDS * rate));
    window = WindowShape.HANN.periodic(learned);
    residual = new double[learned + lookedAt];
    autocorrelation = new Autocorrelation(learned, ORDER);
  }

  /** True if there is damage in {@code x} shortly before {@code end}, or no saying. */
  boolean seen(double[] x, int end) {
    int from = end - learned - lookedAt;
    if (from < 0) {
      return true;
    }
    autocorrelation.compute(x, from, learned, window, r);
    r[0] *= 1 + 1e-9;
    LevinsonDurbin.solve(r, ORDER, a, null);
    double[] part = Arrays.copyOfRange(x, from, end);
    PredictionFilter.residual(a, ORDER, part, ORDER, part.length, residual);
    double sum = 0;
    for (int n = ORDER; n < learned; n++) {
      sum += residual[n] * residual[n];
    }
    double most = UNHEARD_OF * sum / (learned - ORDER);
    for (int n = learned; n < part.length; n++) {
      if (residual[n] * residual[n] > most) {
        return true;
      }
    }
    return false;
  }
}
