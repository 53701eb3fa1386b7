package org.groovemend.playback;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.groovemend.cartridge.ChosenLoading;
import org.groovemend.cartridge.LoadedCoil;
import org.junit.jupiter.api.Test;

/** The digital correction against the circuit, solved anew in complex numbers. */
class LoadingFilterTest {
  private static final int[] RATES = {44_100, 48_000, 88_200, 96_000, 176_400, 192_000};

  /** Most degrees left when a constant delay is taken off, by rate; see curves.md. */
  private static final double[] DEGREES = {5.7, 3.6, 0.22, 0.16, 0.01, 0.005};

  private static final CurveParameters NONE = CurveParameters.defaults();

  /** Divider of coil and load: Zload / (Zcoil + Zload). */
  private static Complex divider(LoadedCoil coil, double hertz) {
    double w = 2 * Math.PI * hertz;
    Complex series = new Complex(coil.coilOhms(), w * coil.henry());
    Complex load = new Complex(1 / coil.loadOhms(), w * coil.farad()).reciprocal();
    return load.divide(series.add(load));
  }

  private static double wantedDb(ChosenLoading l, double hertz) {
    double db = -20 * Math.log10(divider(l.actual(), hertz).abs());
    return l.ideal() == null ? db : db + 20 * Math.log10(divider(l.ideal(), hertz).abs());
  }

  private static List<ChosenLoading> loadings() {
    List<ChosenLoading> all = new ArrayList<>();
    for (String text :
        new String[] {
          "500/800:47000/300:47000/100",
          "500/800:47000/150:47000/300",
          "700/1000:47000/250:68000/150",
          "300/500:100000/200:47000/200",
          // a coil whose corner lies far above the band
          "0.05/10:100/500:1000/200",
          "40/300:47000/100:20000/100",
          "500/800:47000/100:flat"
        }) {
      all.add(ChosenLoading.of(text));
    }
    Random random = new Random(771);
    while (all.size() < 60) {
      all.add(
          ChosenLoading.of(
              String.format(
                  java.util.Locale.ROOT,
                  "%.1f/%.0f:%.0f/%.0f:%.0f/%.0f",
                  100 + 700 * random.nextDouble(),
                  200 + 1500 * random.nextDouble(),
                  20_000 + 80_000 * random.nextDouble(),
                  80 + 400 * random.nextDouble(),
                  20_000 + 80_000 * random.nextDouble(),
                  80 + 400 * random.nextDouble())));
    }
    return all;
  }

  @Test
  void magnitudeIsThatOfTheCircuit() {
    int made = 0;
    for (int rate : RATES) {
      for (ChosenLoading l : loadings()) {
        CurveChange change;
        try {
          change = new CurveChange(NONE.withLoadingMostDb(12).withLoading(l.text()), rate);
        } catch (IllegalArgumentException e) {
          assertThat(e).hasMessageMatching(".*(more than the 12\\.0 dB|cannot be realised).*");
          continue;
        }
        made++;
        double reference = wantedDb(l, 1000);
        for (double hertz = 20; hertz <= 20_000; hertz *= 1.015) {
          double error = change.gainDb(hertz / rate) - (wantedDb(l, hertz) - reference);
          assertThat(Math.abs(error))
              .as("%s at %d Hz, %.0f Hz", l.text(), rate, hertz)
              .isLessThan(0.05);
        }
        for (double cycles = 0; cycles < 0.5; cycles += 0.001) {
          assertThat(change.gainDb(cycles)).isLessThan(12.06);
        }
      }
    }
    // the rest is refused
    assertThat(made).isBetween(300, 360);
  }

  @Test
  void phaseIsThatOfTheCircuitButForADelay() {
    for (int r = 0; r < RATES.length; r++) {
      int rate = RATES[r];
      for (String text :
          new String[] {"500/800:47000/300:47000/100", "300/500:100000/200:47000/200"}) {
        ChosenLoading l = ChosenLoading.of(text);
        RecursiveFilter f = LoadingFilter.design(l.correction(12, 20_000), 1, rate).forward();
        double num = 0;
        double den = 0;
        List<double[]> points = new ArrayList<>();
        for (double hertz = 200; hertz <= 20_000; hertz *= 1.03) {
          double wanted =
              divider(l.ideal(), hertz).getArgument() - divider(l.actual(), hertz).getArgument();
          double lead = Math.IEEEremainder(f.phase(hertz / rate) - wanted, 2 * Math.PI);
          points.add(new double[] {hertz, lead});
          num += lead * hertz;
          den += hertz * hertz;
        }
        double worst = 0;
        for (double[] p : points) {
          worst = Math.max(worst, Math.abs(Math.toDegrees(p[1] - num / den * p[0])));
        }
        assertThat(worst).as("%s at %d Hz", text, rate).isLessThan(DEGREES[r]);
        assertThat(num / den * rate / 2 / Math.PI).as("samples of lead").isBetween(-0.22, 0.0);
      }
    }
  }

  /** Electronics of the capture are not scaled while the file runs as captured. */
  @Test
  void aCaptureAtAnotherSpeed() {
    String text = "500/800:47000/250:47000/150";
    ChosenLoading l = ChosenLoading.of(text);
    CurveParameters slow = NONE.withLoading(text).withSpeeds(78.26, 45);
    CurveParameters right =
        new CurveParameters("flat", "flat", 78.26, 45, CurveParameters.RunsAt.DISC, text, 6, 0, "");
    double reference = wantedDb(l, 1000);
    CurveChange captured = new CurveChange(slow, 96_000);
    CurveChange set = new CurveChange(right, 96_000);
    for (double hertz = 20; hertz < 11_000; hertz *= 1.1) {
      double wanted = wantedDb(l, hertz) - reference;
      assertThat(Math.abs(captured.gainDb(hertz / 96_000) - wanted)).isLessThan(0.05);
      assertThat(Math.abs(set.gainDb(hertz * 78.26 / 45 / 96_000) - wanted)).isLessThan(0.05);
    }
  }

  @Test
  void refusedAboveTheStatedGain() {
    assertThatThrownBy(() -> NONE.withLoading("500/800:47000/1000:47000/100"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("more than the 6.0 dB allowed");
    // below 20 kHz it needs 4 dB, but at 48 kHz of the file a flat ideal needs 20
    CurveParameters flat = NONE.withLoading("500/800:47000/100:flat");
    new CurveChange(flat, 44_100);
    assertThatThrownBy(() -> new CurveChange(flat, 96_000))
        .hasMessageContaining("more than the 6.0 dB allowed");
    assertThatThrownBy(() -> NONE.withLoading("500/800")).hasMessageContaining("MH/OHM:OHM/PF");
    assertThatThrownBy(() -> NONE.withLoading("500/800:47000/x:flat"))
        .hasMessageContaining("not two numbers");
    assertThatThrownBy(() -> NONE.withLoading("-5/800:47000/300:flat"))
        .hasMessageContaining("inductance");
  }
}
