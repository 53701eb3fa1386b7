package org.groovemend.playback;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Every curve of the table, and invented ones, against the analogue network. */
class CurveFilterTest {
  private static final int[] RATES = {44_100, 48_000, 88_200, 96_000, 176_400, 192_000};

  /** Most degrees left when a constant delay is taken off, by rate; see curves.md. */
  private static final double[] DEGREES = {8, 5.2, 0.7, 0.5, 0.06, 0.06};

  /** What the end at 1 Hz turns at 20 Hz: atan(1/20). */
  private static final double END_DEGREES = 2.9;

  private static List<PlaybackCurve> curves() {
    List<PlaybackCurve> curves = new ArrayList<>();
    CurveTable.all().forEach(named -> curves.add(named.curve()));
    // and slower and faster captures
    for (double factor : new double[] {2.3478, 1.7391, 0.426}) {
      curves.add(PlaybackCurve.MICROGROOVE.scaled(factor));
      curves.add(ChosenCurve.of("nab").curve().scaled(factor));
    }
    Random random = new Random(3);
    for (int i = 0; i < 30; i++) {
      double turnover = 150 + 700 * random.nextDouble();
      curves.add(
          new PlaybackCurve(
              random.nextInt(3) == 0 ? 0 : turnover * (3 + 20 * random.nextDouble()),
              turnover,
              random.nextInt(3) == 0 ? 0 : 5 + 140 * random.nextDouble()));
    }
    curves.add(new PlaybackCurve(0, 0, 50));
    return curves;
  }

  @Test
  void magnitudeIsTheAnalogueOne() {
    for (int rate : RATES) {
      for (PlaybackCurve curve : curves()) {
        RecursiveFilter f = PlaybackFilter.design(curve, rate).forward();
        for (double hertz = 20; hertz <= 20_000; hertz *= 1.015) {
          double error = f.gainDb(hertz / rate) - curve.gainDb(hertz);
          double allowed = rate < 48_000 && hertz > 18_000 ? 0.2 : 0.05;
          assertThat(Math.abs(error))
              .as("%s at %d Hz, %.0f Hz", curve, rate, hertz)
              .isLessThan(allowed);
        }
      }
    }
  }

  /** A bilinear design would not pass the test above: 13.5 dB at 44.1 kHz (eq_digital_error). */
  @Test
  void phaseIsTheAnalogueOneButForADelay() {
    for (int r = 0; r < RATES.length; r++) {
      int rate = RATES[r];
      for (PlaybackCurve curve : curves()) {
        RecursiveFilter f = PlaybackFilter.design(curve, rate).forward();
        List<double[]> points = new ArrayList<>();
        double num = 0;
        double den = 0;
        for (double hertz = 20; hertz <= 20_000; hertz *= 1.03) {
          double lead = f.phase(hertz / rate) - curve.phase(hertz);
          lead = Math.IEEEremainder(lead, 2 * Math.PI);
          points.add(new double[] {hertz, lead});
          if (hertz > 200) {
            num += lead * hertz;
            den += hertz * hertz;
          }
        }
        double slope = num / den;
        assertThat(slope * rate / (2 * Math.PI)).as("samples of lead").isBetween(-0.01, 0.45);
        boolean ended = curve.endless() || curve.highPassMicroseconds() > 0;
        for (double[] point : points) {
          double left = Math.abs(Math.toDegrees(point[1] - slope * point[0]));
          double end = ended ? Math.toDegrees(Math.atan(1 / point[0])) : 0;
          assertThat(left)
              .as("%s at %d Hz, %.0f Hz", curve, rate, point[0])
              .isLessThan(DEGREES[r] + Math.min(END_DEGREES, end));
        }
      }
    }
  }

  /** Random samples there and back, no more than rounding left of them. */
  @Test
  void applyThenUndoReturns() {
    for (int rate : RATES) {
      double[] x = new Random(5).doubles(200_000, -1, 1).toArray();
      double[] y = new double[x.length];
      double[] z = new double[x.length];
      for (PlaybackCurve curve : curves()) {
        PlaybackFilter f = PlaybackFilter.design(curve, rate);
        f.forward().fromRest(x, y, 0, x.length);
        f.inverse().fromRest(y, z, 0, x.length);
        double worst = 0;
        for (int n = 0; n < x.length; n++) {
          worst = Math.max(worst, Math.abs(z[n] - x[n]));
        }
        // 2^-33, a 500th of half a step of 24 bits; only what is ended at 1 Hz comes near it
        assertThat(worst).as("%s at %d Hz", curve, rate).isLessThan(0x1p-33);
      }
    }
  }

  @Test
  void sectionsAreTheFilterInFactors() {
    for (int rate : new int[] {44_100, 192_000}) {
      for (PlaybackCurve curve : curves()) {
        PlaybackFilter f = PlaybackFilter.design(curve, rate);
        for (double hertz = 20; hertz < rate / 2.0; hertz *= 1.1) {
          assertThat(gainDb(f.forwardSections(), hertz / rate))
              .isCloseTo(f.forward().gainDb(hertz / rate), within(1e-6));
          assertThat(gainDb(f.inverseSections(), hertz / rate))
              .isCloseTo(f.inverse().gainDb(hertz / rate), within(1e-6));
        }
      }
    }
  }

  private static double gainDb(List<FilterSection> sections, double f) {
    double db = 0;
    for (FilterSection s : sections) {
      db +=
          new RecursiveFilter(
                  new double[] {s.b0(), s.b1(), s.b2()}, new double[] {1, s.a1(), s.a2()})
              .gainDb(f);
    }
    return db;
  }
}
