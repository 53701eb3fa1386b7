package org.groovemend.plays;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

class AlignerTest {
  private static final int RATE = 44_100;

  static DoubleUnaryOperator wow(double ratio, double offset, double depth, double turnHertz, double phase) {
    return t ->
        offset
            + ratio * t
            + depth / (2 * Math.PI * turnHertz) * Math.sin(2 * Math.PI * turnHertz * t + phase)
            + 0.2 * depth / (2 * Math.PI * 3 * turnHertz) * Math.sin(2 * Math.PI * 3 * turnHertz * t);
  }

  /** Moment of a play at which the needle is at a moment of the groove, by bisection. */
  static double inverse(DoubleUnaryOperator needle, double groove) {
    double low = -100;
    double high = 10_000;
    for (int i = 0; i < 200; i++) {
      double mid = (low + high) / 2;
      if (needle.applyAsDouble(mid) < groove) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return (low + high) / 2;
  }

  @Test
  void followsDifferingWowToATwentiethOfASample() throws Exception {
    DoubleUnaryOperator a = wow(1, 0, 0.0015, 1.3, 0.3);
    DoubleUnaryOperator b = wow(1.003, -1.7, 0.002, 1.3, 2.0);
    InventedDisc disc = new InventedDisc(5, 1, 29);
    int frames = 30 * RATE;
    double[] ga = InventedDisc.groove(RATE, frames, a);
    double[] gb = InventedDisc.groove(RATE, frames, b);
    double[][] xa = {disc.sound(ga, 0), disc.sound(ga, 1)};
    double[][] xb = {disc.sound(gb, 0), disc.sound(gb, 1)};
    for (int c = 0; c < 2; c++) {
      InventedDisc.add(xa[c], InventedDisc.noise(10 + c, frames, 0.003));
      InventedDisc.add(xb[c], InventedDisc.noise(20 + c, frames, 0.003));
    }
    double rms = 0;
    for (double v : xa[0]) rms += v * v;
    System.out.println("rms " + Math.sqrt(rms / frames));
    long t0 = System.nanoTime();
    Alignment found =
        new Aligner(InventedDisc.side(RATE, xa)).align(InventedDisc.side(RATE, xb));
    System.out.println((System.nanoTime() - t0) / 1e9 + " s " + found.offsetSeconds() + " " + found.ratio() + " follow " + found.followHertz() + " scale " + found.scale() + " like " + found.likeness() + " scatter " + found.scatterSeconds() * RATE + " n " + found.anchors());
    PlayMap map = found.map(RATE, RATE, 0);
    double sum = 0; double most = 0; int n = 0; double z = 0;
    for (double t = 1.5; t < 28; t += 0.01) {
      double truth = inverse(b, a.applyAsDouble(t));
      double e = (map.playSeconds(t) - truth) * RATE;
      sum += e * e; n++; most = Math.max(most, Math.abs(e));
      double d = found.doubtSeconds(t) * RATE;
      z += e * e / d / d;
    }
    System.out.println("rms error " + Math.sqrt(sum / n) + " most " + most + " z " + Math.sqrt(z / n));
    assertThat(Math.sqrt(sum / n)).isLessThan(0.05);
  }
}
