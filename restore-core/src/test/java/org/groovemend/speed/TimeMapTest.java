package org.groovemend.speed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.groovemend.resample.PositionMap;
import org.groovemend.signal.predict.ReferenceTable;
import org.junit.jupiter.api.Test;

/** Positions against the integral worked out by hand, or by a much finer sum. */
class TimeMapTest {
  private static final int IN = 96_000;
  private static final int OUT = 44_100;

  private static void check(TimeMap map, int seconds, DoubleUnaryOperator copySeconds) {
    long frames = (long) seconds * IN;
    PositionMap positions = map.positions(IN, frames, OUT);
    long last = positions.firstFrom(frames);
    assertThat(last - copySeconds.applyAsDouble(seconds) * OUT).isBetween(-1e-5, 1 + 1e-5);
    long[] whole = new long[1];
    double[] fraction = new double[1];
    double before = -1;
    for (long n = 0; n < last; n += 9973) {
      positions.positions(n, 1, whole, fraction);
      double t = (whole[0] + fraction[0]) / IN;
      // a millionth of a frame
      assertThat(copySeconds.applyAsDouble(t) * OUT).as("frame %s", n).isCloseTo(n, within(2e-6));
      assertThat(t).isGreaterThan(before);
      before = t;
      assertThat(positions.outputFrame(whole[0])).isCloseTo(n, within(1.0));
    }
    // the steps told bound those taken
    long[] many = new long[IN];
    double[] parts = new double[IN];
    positions.positions(0, IN, many, parts);
    for (int i = 1; i < IN; i++) {
      double step = many[i] - many[i - 1] + (parts[i] - parts[i - 1]);
      assertThat(step).isBetween(positions.gentlest() - 1e-9, positions.steepest() + 1e-9);
    }
  }

  @Test
  void aFactorAlone() {
    check(TimeMap.of(1.7391304347826086), 20, t -> t / 1.7391304347826086);
  }

  @Test
  void wowAtOneRadius() {
    double depth = 0.01;
    double w = 2 * Math.PI / 0.77;
    Wow wow = new Wow(0.77, 100, 0, List.of(new Wow.Part(1, 0, 100 * depth)));
    check(
        new TimeMap(1.02, List.of(), wow), 20, t -> (t + depth / w * (1 - Math.cos(w * t))) / 1.02);
  }

  @Test
  void wowThatGrowsAndDrift() {
    Wow wow =
        new Wow(1.8, 146, 0.5, List.of(new Wow.Part(1, 0.3, -0.2), new Wow.Part(2, 0.05, 0.02)));
    List<DriftNode> nodes =
        List.of(new DriftNode(0, 1.01), new DriftNode(10, 1), new DriftNode(30, 0.99));
    MonotoneCubic log =
        new MonotoneCubic(
            new double[] {0, 10, 30}, new double[] {Math.log(1.01), 0, Math.log(0.99)});
    // a table of the integral by the midpoint rule, 0.1 ms
    int fine = 10_000;
    double[] sum = new double[40 * fine + 1];
    for (int i = 0; i < sum.length - 1; i++) {
      double t = (i + 0.5) / fine;
      double a = 2 * Math.PI * t / 1.8;
      double w =
          (0.3 * Math.cos(a) - 0.2 * Math.sin(a) + 0.05 * Math.cos(2 * a) + 0.02 * Math.sin(2 * a))
              / (146 - 0.5 * t);
      sum[i + 1] = sum[i] + (1 + w) / Math.exp(log.value(t)) / fine;
    }
    check(
        new TimeMap(1, nodes, wow),
        40,
        t -> {
          int i = Math.min(sum.length - 2, (int) (t * fine));
          return sum[i] + (t * fine - i) * (sum[i + 1] - sum[i]);
        });
  }

  /** Table groove_speed: peak deviation in per cent of a hole 0.2 mm off. */
  @Test
  void eccentricityIsThatOfTheTable() throws Exception {
    int seen = 0;
    for (List<String> row : ReferenceTable.rows("/fixtures/reference/disc/groove_speed.csv")) {
      double radius = Double.parseDouble(row.get(2));
      Wow wow = new Wow(1.8, radius, 0, List.of(new Wow.Part(1, 0.12, 0.16)));
      assertThat(100 * wow.peak(0)).isCloseTo(Double.parseDouble(row.get(9)), within(5.1e-6));
      seen++;
    }
    assertThat(seen).isEqualTo(7);
  }

  @Test
  void whatCannotBeIsRefused() {
    assertThatThrownBy(() -> TimeMap.of(5)).hasMessageContaining("outside 0.25 to 4");
    assertThatThrownBy(() -> TimeMap.of(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(
            () -> new TimeMap(1, List.of(new DriftNode(5, 1), new DriftNode(5, 1.01)), null))
        .hasMessageContaining("not in order");
    assertThatThrownBy(() -> new TimeMap(3.9, List.of(new DriftNode(5, 1.1)), null))
        .hasMessageContaining("outside");
    assertThatThrownBy(() -> new Wow(1.8, 100, 0, List.of(new Wow.Part(1, 6, 0))))
        .hasMessageContaining("off the middle");
  }
}
