package org.groovemend.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LongTermSpectrumTest {
  private static final int RATE = 48_000;

  /** White noise has a share of its power in a band that is the band's share of the whole width. */
  @Test
  void whiteNoise() {
    double[] x = new double[60 * RATE];
    Random random = new Random(2);
    Arrays.setAll(x, i -> 0.1 * random.nextGaussian());
    LongTermSpectrum spectrum = new LongTermSpectrum(RATE, 1);
    spectrum.accept(new double[][] {x}, x.length);
    for (LongTermSpectrum.Band band : spectrum.thirdOctaves()) {
      double width = band.centreHz() * (StrictMath.pow(10, 0.05) - StrictMath.pow(10, -0.05));
      double expected = 10 * StrictMath.log10(0.01 * width / (RATE / 2.0));
      // about 350 spectra, and lines of 5.9 Hz: 6 Hz in the lowest bands is one line or so
      assertThat(band.levelDbfs())
          .as("%f Hz", band.centreHz())
          .isCloseTo(expected, within(band.centreHz() < 100 ? 1.0 : 0.3));
    }
  }

  @Test
  void aToneLiesInItsBandAndBlocksDoNotMatter() {
    double[] x = new double[3 * RATE];
    Arrays.setAll(x, i -> 0.5 * StrictMath.sin(2 * Math.PI * 1000 * i / RATE));
    LongTermSpectrum whole = new LongTermSpectrum(RATE, 2);
    whole.accept(new double[][] {x, x}, x.length);
    LongTermSpectrum parts = new LongTermSpectrum(RATE, 2);
    for (int at = 0; at < x.length; at += 1000) {
      double[] part = Arrays.copyOfRange(x, at, at + 1000);
      parts.accept(new double[][] {part, part}, 1000);
    }
    List<LongTermSpectrum.Band> bands = whole.thirdOctaves();
    assertThat(parts.thirdOctaves()).isEqualTo(bands);
    for (LongTermSpectrum.Band band : bands) {
      if (Math.abs(band.centreHz() - 1000) < 1) {
        assertThat(band.levelDbfs()).isCloseTo(-9.03, within(0.05));
      } else {
        assertThat(band.levelDbfs()).isLessThan(-60);
      }
    }
    assertThat(new LongTermSpectrum(RATE, 1).thirdOctaves()).isEmpty();
  }
}
