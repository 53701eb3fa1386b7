package org.groovemend.rumble;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import java.util.stream.Stream;
import org.groovemend.signal.predict.ReferenceTable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Gain of the stage from 1 Hz to 20 kHz, from its response to a pulse, against the Butterworth
 * filters of scipy run twice (head of the table). The gain is within 2e-6 of theirs: 0.00002 dB in
 * the pass band, 0.2 dB where they are 80 dB down; the table's own warping of up to 0.0008 dB comes
 * to that.
 */
class RumbleResponseTest {

  private static final double GAIN = 2e-6;
  private static final double WARPING_DB = 0.0008;

  record Case(int rate, double corner, int order, List<double[]> rows) {
    @Override
    public String toString() {
      return rate + " Hz, corner " + corner + ", order " + order;
    }
  }

  static Stream<Case> cases() throws IOException {
    java.util.Map<String, Case> cases = new java.util.LinkedHashMap<>();
    for (List<String> row :
        ReferenceTable.rows("/fixtures/reference/rumble/butterworth_twice.csv")) {
      int rate = Integer.parseInt(row.get(0));
      double corner = Double.parseDouble(row.get(1));
      int order = Integer.parseInt(row.get(2));
      cases
          .computeIfAbsent(
              rate + " " + corner + " " + order,
              any -> new Case(rate, corner, order, new java.util.ArrayList<>()))
          .rows()
          .add(new double[] {Double.parseDouble(row.get(3)), Double.parseDouble(row.get(4))});
    }
    assertThat(cases).hasSize(20);
    return cases.values().stream();
  }

  @ParameterizedTest
  @MethodSource("cases")
  void lateralAndVerticalPart(Case c) {
    boolean low = c.corner() <= 40;
    // as the lateral corner where it may be one, else as the vertical one beside 16 Hz
    RumbleParameters p =
        new RumbleParameters(
            low ? c.corner() : 16,
            low ? 0 : c.corner(),
            c.order(),
            RumbleParameters.VerticalPart.ALWAYS,
            -60);
    RumbleStage stage = new RumbleStage(p, Treated.BOTH);
    int reach =
        stage.segmentation(org.groovemend.audio.AudioFormat.pcm(c.rate(), 2, 24)).contextBefore();
    for (int shift : new int[] {0, 17}) {
      int middle = reach + shift;
      double[][] x = new double[2][2 * reach + 100];
      // no digital silence: the stage would leave it
      for (int i = 0; i < x[0].length; i++) {
        x[0][i] = 1e-300;
        x[1][i] = low ? 1e-300 : -1e-300;
      }
      x[0][middle] = 1;
      x[1][middle] = low ? 1 : -1;
      double[][] y = Treated.whole(stage, c.rate(), x);
      for (double[] row : c.rows()) {
        double gain = gain(y[0], middle, row[0], c.rate());
        double expected = StrictMath.pow(10, row[1] / 20);
        double tolerance = GAIN + expected * WARPING_DB / 8.68;
        assertThat(gain).as("%s Hz", row[0]).isCloseTo(expected, within(tolerance));
      }
    }
  }

  /** Without phase the response is even about the pulse: only cosines. */
  private static double gain(double[] y, int middle, double hertz, int rate) {
    double even = 0;
    double odd = 0;
    double turn = 2 * Math.PI * hertz / rate;
    for (int i = 0; i < y.length; i++) {
      even += y[i] * StrictMath.cos(turn * (i - middle));
      odd += y[i] * StrictMath.sin(turn * (i - middle));
    }
    assertThat(odd).as("phase at %s Hz", hertz).isCloseTo(0, within(GAIN));
    return even;
  }
}
