package org.groovemend.transfer;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.assertj.core.api.Assertions;
import org.groovemend.signal.fft.RealFft;
import org.junit.jupiter.api.Test;

/** Sides whose band the test itself cut off, exactly, in the transform of the whole side. */
class BandEdgeFinderTest {

  private static BandEdge find(double[][] x, int rate) {
    FineSpectrum spectrum = new FineSpectrum(rate, x.length);
    WornSide.feed(spectrum, null, x, 65_536);
    return BandEdgeFinder.find(spectrum);
  }

  @Test
  void aTrueTransferHasNoWall() {
    BandEdge found = find(WornSide.samples(WornSide.words(24), 24), WornSide.RATE);
    assertThat(found.told()).isTrue();
    assertThat(found.found()).isFalse();
  }

  @Test
  void aGentleFallIsNoWall() {
    // 12 dB an octave from 4 kHz down to the noise of a converter: an acoustic disc
    double[] x = new double[20 * WornSide.RATE];
    Random random = new Random(1);
    double a = 0;
    double b = 0;
    for (int i = 0; i < x.length; i++) {
      a += 0.23 * (0.05 * random.nextGaussian() - a);
      b += 0.23 * (a - b);
      x[i] = b + 1e-6 * random.nextGaussian();
    }
    assertThat(find(new double[][] {x}, WornSide.RATE).found()).isFalse();
  }

  @Test
  void aFilesOwnLowPassIsNoWall() {
    double[] noise = new double[10 * WornSide.RATE];
    Random random = new Random(4);
    java.util.Arrays.setAll(noise, i -> 0.05 * random.nextGaussian());
    // where converters commonly end; the shoulder reaches into the search
    double[][] x = {cut(noise, 0.4535 * WornSide.RATE)};
    assertThat(find(x, WornSide.RATE).found()).isFalse();
    double[][] lower = {cut(noise, 0.40 * WornSide.RATE)};
    assertThat(find(lower, WornSide.RATE).found()).isTrue();
  }

  @Test
  void upsampledSidesAreToldWithTheirRateAndDepth() {
    double[][] side = WornSide.samples(WornSide.words(24), 24);
    for (int source : new int[] {32_000, 44_100, 48_000}) {
      for (int bits : new int[] {16, 24}) {
        double edge = 0.453 * source;
        double[][] x = new double[2][];
        Random dither = new Random(bits);
        double step = 1.0 / (1 << (bits - 1));
        for (int c = 0; c < 2; c++) {
          x[c] = cut(side[c], edge);
          for (int i = 0; i < x[c].length; i++) {
            x[c][i] = step * Math.rint(x[c][i] / step + dither.nextDouble() - 0.5);
          }
        }
        BandEdge found = find(x, WornSide.RATE);
        assertThat(found.found()).as(source + " Hz, " + bits).isTrue();
        assertThat(found.edgeHertz()).isCloseTo(edge, Assertions.withinPercentage(1.5));
        assertThat(found.sourceRatesHz()).contains(source);
        // rectangular dither doubles the noise of rounding: half a bit
        assertThat(found.aboveBits()).isCloseTo(bits - 0.5, Assertions.within(0.6));
      }
    }
  }

  private static double[] cut(double[] x, double hertz) {
    int size = 1 << 22;
    double[] a = java.util.Arrays.copyOf(x, size);
    RealFft fft = new RealFft(size);
    fft.forward(a);
    int from = (int) (hertz / WornSide.RATE * size);
    a[1] = 0;
    for (int k = from; k < size / 2; k++) {
      a[2 * k] = 0;
      a[2 * k + 1] = 0;
    }
    fft.inverse(a);
    return java.util.Arrays.copyOf(a, x.length);
  }
}
