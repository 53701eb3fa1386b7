package org.groovemend.thump;

import static org.assertj.core.api.Assertions.assertThat;

import org.groovemend.stage.SegmentWindow;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LowBandTest {

  /** Root mean square of a tone of amplitude 1 in the low band, a second from either end, in dB. */
  private static double level(int rate, double hz) {
    double[][] x = new double[1][3 * rate];
    for (int n = 0; n < x[0].length; n++) {
      x[0][n] = Math.sqrt(2) * Math.sin(2 * Math.PI * hz * n / rate);
    }
    LowBand low = new LowBand(ThumpGeometry.of(ThumpParameters.defaults(), rate));
    low.load(new SegmentWindow(x, 0, x[0].length, 0, x[0].length, x[0].length));
    double sum = 0;
    int from = low.length() / 3;
    for (int i = from; i < 2 * from; i++) {
      sum += low.channel(0)[i] * low.channel(0)[i];
    }
    return 10 * Math.log10(sum / from);
  }

  @ParameterizedTest
  @ValueSource(ints = {8000, 11025, 44100, 48000, 88200, 96000, 192000})
  void ringsPass(int rate) {
    for (double hz : new double[] {20, 60, 150, 300}) {
      assertThat(level(rate, hz)).as(hz + " Hz").isBetween(-0.2, 0.2);
    }
  }

  /** The negative twin: what would fold back among the rings is gone, both filters' bands tried. */
  @ParameterizedTest
  @ValueSource(ints = {8000, 11025, 44100, 48000, 88200, 96000, 192000})
  void whatFoldsBackDoesNot(int rate) {
    ThumpGeometry g = ThumpGeometry.of(ThumpParameters.defaults(), rate);
    for (double at : new double[] {g.perSecond(), (double) rate / g.thinning()}) {
      if (at + 90 < rate / 2.0) {
        assertThat(level(rate, at - 90)).as("below " + at).isLessThan(-50);
        assertThat(level(rate, at + 90)).as("above " + at).isLessThan(-50);
      }
    }
  }
}
