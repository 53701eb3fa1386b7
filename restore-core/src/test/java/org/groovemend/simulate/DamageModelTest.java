package org.groovemend.simulate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class DamageModelTest {

  private static final int RATE = 44_100;
  private static final Transfer TRANSFER = new Transfer(RATE, Pickup.ordinary(), 0.4);
  private static final Turntable COARSE = new Turntable(Turntable.COARSE_GROOVE_RPM, 0.11, 2.6e-4);

  @Test
  void radialScratchTicksOnceATurn() {
    for (double rpm : new double[] {100.0 / 3, 45, Turntable.COARSE_GROOVE_RPM}) {
      Turntable turntable = new Turntable(rpm, 0.11, 2e-4);
      List<Impulse> ticks = new DamagePlan(RATE, turntable, 5).scratch(1, 20, 0.3, 0, 4e-6);
      assertThat(ticks).hasSizeBetween((int) (19 * rpm / 60) - 1, (int) (19 * rpm / 60) + 1);
      for (int i = 1; i < ticks.size(); i++) {
        double period = (ticks.get(i).atFrame() - ticks.get(i - 1).atFrame()) / RATE;
        assertThat(period).isCloseTo(60 / rpm, within(1e-9));
      }
      assertThat(ticks.get(0).atFrame()).isBetween(1.0 * RATE, (1 + 60 / rpm) * RATE);
    }
  }

  @Test
  void obliqueScratchDriftsByItsAnglePerTurn() {
    List<Impulse> ticks = new DamagePlan(RATE, COARSE, 5).scratch(1, 20, 0.3, 0.002, 4e-6);
    double period = (ticks.get(9).atFrame() - ticks.get(0).atFrame()) / 9 / RATE;
    assertThat(period / COARSE.turnSeconds()).isCloseTo(1.002, within(1e-9));
  }

  @Test
  void dustFallsAtTheStatedRateWithoutOrder() {
    List<Impulse> dust =
        new DamagePlan(RATE, COARSE, 9).scattered(DamageKind.DUST, 0, 400, 10, 1e-6, 4e-6);
    // Poisson, mean 4000: four standard deviations
    assertThat((double) dust.size()).isCloseTo(4000, within(4 * Math.sqrt(4000)));
    // waiting times of a Poisson process: variation coefficient 1 (a scratch would give 0);
    // its own standard error is about sqrt(2/N) = 0.022
    double mean = 0;
    double square = 0;
    for (int i = 1; i < dust.size(); i++) {
      double gap = dust.get(i).atFrame() - dust.get(i - 1).atFrame();
      mean += gap;
      square += gap * gap;
    }
    int n = dust.size() - 1;
    double variation = Math.sqrt(square / n - mean / n * mean / n) / (mean / n);
    assertThat(variation).isCloseTo(1, within(0.09));
  }

  @Test
  void anyCuttingOfTheSideGivesTheSameSamples() {
    DamagePlan plan = new DamagePlan(RATE, COARSE, 3);
    List<Impulse> impulses =
        new ArrayList<>(plan.scattered(DamageKind.DUST, 0, 1, 200, 1e-6, 4e-6));
    impulses.add(
        new Impulse(DamageKind.RUN_OUT, 20_000, new GroovePulse(1e-5, 4e-4, 9e-4), 1, -0.5));
    DamageModel model = new DamageModel(TRANSFER, COARSE, impulses);
    double[][] whole = new double[2][RATE];
    model.addTo(whole, 0, 0, RATE);
    for (int block : new int[] {7, 64, 1021, 4096}) {
      double[][] cut = new double[2][RATE];
      for (int at = 0; at < RATE; at += block) {
        model.addTo(cut, at, at, Math.min(block, RATE - at));
      }
      assertThat(cut).isDeepEqualTo(whole);
    }
  }

  @Test
  void statedPulseAtStatedPlaceOnTheStatedWalls() {
    GroovePulse pulse = new GroovePulse(4e-6, 60e-6, 60e-6);
    DamageModel model =
        new DamageModel(
            TRANSFER, COARSE, List.of(new Impulse(DamageKind.DUST, 5000.5, pulse, 1, -0.25)));
    double[][] out = new double[2][10_000];
    model.addTo(out, 0, 0, 10_000);
    List<DamagedRange> ranges = model.ranges(1e-6, 2, 10_000);
    assertThat(ranges).hasSize(2);
    for (DamagedRange r : ranges) {
      assertThat(r.start()).isBetween(4984L, 5001L);
      assertThat(r.end() - r.start()).isBetween(6L, 60L);
      double peak = 0;
      for (int i = 0; i < 10_000; i++) {
        double y = Math.abs(out[r.channel()][i]);
        peak = Math.max(peak, y);
        if (i < r.start() || i >= r.end()) {
          assertThat(y).isLessThanOrEqualTo(0.02 * r.peak() + 1e-15);
        }
      }
      assertThat(peak).isEqualTo(r.peak());
    }
    assertThat(ranges.get(1).peak()).isCloseTo(ranges.get(0).peak() / 4, within(1e-12));
    for (int i = 0; i < 10_000; i++) {
      assertThat(out[1][i]).isEqualTo(-0.25 * out[0][i]);
    }
  }

  @Test
  void rangesBelowTheFloorAreNotCalledDamage() {
    GroovePulse pulse = new GroovePulse(1e-9, 60e-6, 60e-6);
    DamageModel model =
        new DamageModel(TRANSFER, COARSE, List.of(new Impulse(DamageKind.DUST, 500, pulse, 1, 1)));
    assertThat(model.ranges(1e-3, 2, 1000)).isEmpty();
    assertThat(model.ranges(0, 2, 1000)).hasSize(2);
  }
}
