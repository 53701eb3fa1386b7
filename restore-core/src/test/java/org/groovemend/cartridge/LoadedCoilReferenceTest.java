package org.groovemend.cartridge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import org.groovemend.signal.predict.ReferenceTable;
import org.junit.jupiter.api.Test;

/** Worked examples of fixtures/reference/cartridge/cartridge_load.csv. */
class LoadedCoilReferenceTest {
  private static final double[] HERTZ = {
    20, 2000, 5000, 8000, 10_000, 12_000, 15_000, 18_000, 20_000
  };
  private static final LoadedCoil COIL = new LoadedCoil(0.5, 800, 47_000, 200e-12);

  @Test
  void workedExamples() throws IOException {
    int peaks = 0;
    for (List<String> row :
        ReferenceTable.rows("/fixtures/reference/cartridge/cartridge_load.csv")) {
      double[] v =
          row.stream().mapToDouble(s -> s.isEmpty() ? Double.NaN : Double.parseDouble(s)).toArray();
      LoadedCoil coil = new LoadedCoil(v[0] * 1e-3, v[1], v[2], v[3] * 1e-12);
      assertThat(coil.cornerHertz()).isCloseTo(v[4], within(6e-4));
      assertThat(coil.quality()).isCloseTo(v[5], within(6e-7));
      assertThat(coil.peaks()).isEqualTo(!Double.isNaN(v[6]));
      if (coil.peaks()) {
        peaks++;
        assertThat(coil.peakHertz()).isCloseTo(v[6], within(0.006));
        assertThat(coil.peakDb()).isCloseTo(v[7], within(6e-5));
      }
      assertThat(coil.lossDb()).isCloseTo(v[8], within(6e-7));
      for (int i = 0; i < HERTZ.length; i++) {
        assertThat(coil.gainDb(HERTZ[i])).isCloseTo(v[9 + i], within(6e-6));
      }
    }
    assertThat(peaks).isEqualTo(11);
  }

  /** By complex arithmetic of the circuit itself: a divider of Z = R + jwL and Rl beside C. */
  @Test
  void theCircuitItselfSaysTheSame() {
    for (double hertz = 20; hertz < 50_000; hertz *= 1.7) {
      double w = 2 * Math.PI * hertz;
      // load admittance, then 1 / (1 + Z Y)
      double g = 1 / COIL.loadOhms();
      double b = w * COIL.farad();
      double re = 1 + COIL.coilOhms() * g - w * COIL.henry() * b;
      double im = COIL.coilOhms() * b + w * COIL.henry() * g;
      double power = 1 / (re * re + im * im);
      double loss = StrictMath.pow(10, COIL.lossDb() / 10);
      assertThat(loss * COIL.squaredMagnitude(hertz)).isCloseTo(power, within(1e-12 * power));
    }
  }

  @Test
  void halfPowerIsWhereTheResponseIsThreeDecibelsDown() {
    assertThat(COIL.gainDb(COIL.halfPowerHertz())).isCloseTo(-3.0103, within(1e-4));
    assertThat(COIL.gainDb(1.01 * COIL.halfPowerHertz())).isLessThan(-3.02);
  }

  @Test
  void resistanceBetweenTheTerminals() {
    // at low frequency the coil beside the load, at resonance the load is not shunted
    assertThat(COIL.resistiveOhms(0.001)).isCloseTo(800.0 * 47_000 / 47_800, within(0.01));
    assertThat(COIL.resistiveOhms(COIL.cornerHertz())).isBetween(45_000.0, 47_000.0);
  }

  @Test
  void aCorrectionBeyondItsGainIsRefused() {
    LoadedCoil heavy = COIL.into(47_000, 400e-12);
    LoadCorrection some = new LoadCorrection(heavy, COIL, 6, 15_000);
    for (double hertz : new double[] {1000, 8000, 15_000}) {
      assertThat(some.gainDb(hertz) + heavy.gainDb(hertz))
          .isCloseTo(COIL.gainDb(hertz), within(1e-9));
    }
    // 8.0 dB are lost at 20 kHz (the table), so that much is needed
    assertThatThrownBy(() -> new LoadCorrection(heavy, null, 6, 20_000))
        .hasMessageContaining("8.0 dB at 20000 Hz")
        .hasMessageContaining("6.0 dB allowed");
    assertThat(new LoadCorrection(heavy, null, 8.1, 20_000).gainDb(20_000))
        .isCloseTo(8.01752, within(1e-5));
    assertThatThrownBy(() -> new LoadedCoil(0.5, 800, 47_000, 0)).hasMessageContaining("pF");
    assertThatThrownBy(() -> new LoadedCoil(Double.NaN, 800, 47_000, 1e-10))
        .hasMessageContaining("inductance");
  }
}
