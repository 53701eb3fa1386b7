package org.groovemend.surfacenoise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.Random;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;
import org.junit.jupiter.api.Test;

class FrameKernelTest {

  private static double[] welch(double[] x, int length) {
    RealFft fft = new RealFft(length);
    double[] w = WindowShape.SQRT_HANN.periodic(length);
    double[] a = new double[length];
    double[] p = new double[length / 2 + 1];
    double[] sum = new double[p.length];
    int n = 0;
    for (int s = 0; s + length <= x.length; s += length / 4, n++) {
      for (int i = 0; i < length; i++) {
        a[i] = x[s + i] * w[i];
      }
      fft.forward(a);
      Spectra.power(a, p);
      for (int k = 0; k < p.length; k++) {
        sum[k] += p[k];
      }
    }
    for (int k = 0; k < sum.length; k++) {
      sum[k] /= n;
    }
    return sum;
  }

  private static double[] seen(double[] lines, int length, int shorter) {
    return FrameKernel.seen(lines, FrameKernel.of(length, shorter), length / shorter);
  }

  @Test
  void whiteNoiseKeepsItsDensity() {
    double[] lines = new double[4097];
    Arrays.fill(lines, 8);
    for (double p : seen(lines, 8192, 1024)) {
      assertEquals(1, p, 1e-12); // power of a line goes as the length of the frame
    }
  }

  @Test
  void colouredNoiseWithALineLooksAsShortFramesShowIt() {
    Random random = new Random(3);
    double[] x = new double[1 << 20];
    double low = 0;
    for (int i = 0; i < x.length; i++) {
      low = 0.98 * low + random.nextGaussian();
      x[i] = low + 0.2 * random.nextGaussian() + 8 * Math.sin(2 * Math.PI * 0.1 * i);
    }
    double[] expected = welch(x, 1024);
    double[] got = seen(welch(x, 8192), 8192, 1024);
    for (int k = 0; k < got.length; k++) {
      // four standard deviations: each mean scatters by 0.1 dB (1,760 independent frames), the ends
      // more; beside a line, where the short window falls steeply, the long one blurs it
      double allowed = Math.abs(k - 102) < 5 ? 3 : k == 0 || k == 512 ? 0.8 : 0.6;
      assertEquals(0, 10 * StrictMath.log10(got[k] / expected[k]), allowed, "line " + k);
    }
  }

  @Test
  void onlyShorterFramesCanBeSeen() {
    double[][] p = {new double[129]};
    Arrays.fill(p[0], 1);
    GrooveNoise noise = new GrooveNoise(44_100, 256, 0, 44_100, 9, 0, 1, p, p);
    assertEquals(64, noise.atFrameLength(64).frameLength());
    assertThrows(IllegalArgumentException.class, () -> noise.atFrameLength(256));
    assertThrows(IllegalArgumentException.class, () -> noise.atFrameLength(96));
  }
}
