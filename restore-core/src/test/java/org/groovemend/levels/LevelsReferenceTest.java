package org.groovemend.levels;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import org.groovemend.cartridge.LoadedCoil;
import org.groovemend.playback.PlaybackCurve;
import org.groovemend.signal.predict.ReferenceTable;
import org.junit.jupiter.api.Test;

/**
 * Against fixtures/reference/levels, and facts of the trade; their source is arithmetic unless
 * named.
 */
class LevelsReferenceTest {
  private static final Pickup PICKUP = new Pickup(5, 5);
  private static final LoadedCoil COIL = new LoadedCoil(0.5, 800, 47_000, 200e-12);

  private static Level of(String text) {
    return Level.parse(text, PICKUP, Level.ofDbu(18));
  }

  @Test
  void conversionsOfTheTable() throws IOException {
    for (List<String> row :
        ReferenceTable.rows("/fixtures/reference/levels/level_conversions.csv")) {
      Level level = of(row.get(0));
      assertThat(level.volts()).isCloseTo(number(row, 1), within(1e-8 * number(row, 1)));
      assertThat(level.dbV()).isCloseTo(number(row, 2), within(6e-6));
      assertThat(level.dbu()).isCloseTo(number(row, 3), within(6e-6));
      assertThat(level.peakVolts()).isCloseTo(number(row, 4), within(6e-10 + 1e-7));
    }
  }

  private static double number(List<String> row, int column) {
    return Double.parseDouble(row.get(column));
  }

  @Test
  void factsOfTheTrade() {
    assertThat(of("5mV").dbu()).isCloseTo(-43.8, within(0.005));
    assertThat(of("+1dBu").volts()).isCloseTo(0.869, within(0.0005));
    assertThat(of("5mV").plus(40).volts()).isCloseTo(0.5, within(1e-12));
    // a curve of 20 dB each way needs that much room at both ends
    CurveRoom room = CurveRoom.of(PlaybackCurve.MICROGROOVE);
    assertThat(room.mostDb()).isCloseTo(20, within(0.8));
    assertThat(room.leastDb()).isCloseTo(-20, within(0.5));
  }

  @Test
  void velocityAndSwing() {
    assertThat(of("5cm/s").volts()).isCloseTo(0.005, within(1e-15));
    assertThat(of("50cm/s").over(of("5cm/s"))).isCloseTo(20, within(1e-12));
    assertThat(PICKUP.velocityOf(of("10mV"))).isCloseTo(10, within(1e-12));
    // check values: 7.958 um at 5 cm/s peak
    assertThat(Pickup.displacementMicrometres(5, 1000)).isCloseTo(7.958, within(0.0005));
    assertThat(of("0dBFS").dbu()).isCloseTo(18, within(1e-12));
  }

  /** Check values: 47 kohm 3.9010 uV in 20 kHz, -105.958 dBu; 800 ohm 0.50895 uV, -123.648 dBu. */
  @Test
  void thermalNoise() {
    Level load = new Level(NoiseChain.thermalVolts(47_000, 20_000));
    assertThat(load.volts()).isCloseTo(3.9010e-6, within(6e-11));
    assertThat(load.dbu()).isCloseTo(-105.958, within(6e-4));
    Level coil = new Level(NoiseChain.thermalVolts(800, 20_000));
    assertThat(coil.volts()).isCloseTo(0.50895e-6, within(6e-12));
    assertThat(coil.dbu()).isCloseTo(-123.648, within(6e-4));
    // the loaded coil lies between them, and the curve takes its treble down
    double flat = NoiseChain.thermalVolts(COIL, PlaybackCurve.FLAT);
    assertThat(flat).isBetween(coil.volts(), load.volts());
    assertThat(NoiseChain.thermalVolts(COIL, PlaybackCurve.MICROGROOVE)).isLessThan(0.4 * flat);
    // a coil of next to no inductance is two resistors
    LoadedCoil resistor = new LoadedCoil(1e-6, 800, 47_000, 1e-12);
    assertThat(NoiseChain.thermalVolts(resistor, PlaybackCurve.FLAT))
        .isCloseTo(NoiseChain.thermalVolts(800.0 * 47_000 / 47_800, 19_980), within(1e-12));
  }

  /**
   * A converter of 120 dB whose full scale is 0 dBu has 76 dB left under 5 mV; the groove holds
   * some 55 (common practice, no source) and is the limit; without gain enough the converter is.
   */
  @Test
  void whichLinkLimits() {
    GainPlan bare = plan(0, Level.ofDbu(0), PlaybackCurve.FLAT);
    NoiseChain chain = NoiseChain.of(bare, COIL, 0, 120, 55);
    assertThat(link(chain, "converter")).isCloseTo(76.2, within(0.01));
    assertThat(chain.limiting().name()).isEqualTo("groove");
    double thermal = NoiseChain.thermalVolts(COIL, PlaybackCurve.FLAT) / 0.005;
    double sum = StrictMath.pow(10, -5.5) + thermal * thermal + StrictMath.pow(10, -7.61979);
    assertThat(chain.allDb()).isCloseTo(-10 * StrictMath.log10(sum), within(1e-3));
    NoiseChain poor = NoiseChain.of(bare, COIL, 0, 90, 55);
    assertThat(poor.limiting().name()).isEqualTo("converter");
    assertThat(link(poor, "converter")).isCloseTo(46.2, within(0.01));
    // 20 nV per root hertz are 2.83 uV in 20 kHz: 65 dB under 5 mV
    NoiseChain noisy = NoiseChain.of(bare, COIL, 20e-9, 120, 55);
    assertThat(link(noisy, "preamplifier")).isCloseTo(64.95, within(0.01));
    // white noise behind the curve is lower than before
    assertThat(NoiseChain.whiteNoiseDb(PlaybackCurve.FLAT)).isCloseTo(0, within(1e-4));
    // a plain sum of |H|^2 every quarter hertz, made with numpy
    assertThat(NoiseChain.whiteNoiseDb(PlaybackCurve.MICROGROOVE))
        .isCloseTo(-3.64566, within(1e-4));
  }

  private static double link(NoiseChain chain, String name) {
    return chain.links().stream()
        .filter(l -> l.name().equals(name))
        .findFirst()
        .orElseThrow()
        .belowDb();
  }

  private static GainPlan plan(double gain, Level fullScale, PlaybackCurve curve) {
    return GainPlan.of(new GainPlan.Chain(PICKUP, gain, fullScale, 20, 15, 12, curve));
  }

  @Test
  void gainLeavesRoomForMusicAndClicksApart() {
    GainPlan plan = plan(Double.NaN, Level.ofDbu(18), PlaybackCurve.MICROGROOVE);
    // 50 mV are -23.80 dBu; 18 dBu less that less 15 for clicks
    assertThat(plan.mostGainDb()).isCloseTo(18 + 23.802 - 15, within(0.001));
    assertThat(plan.chain().gainDb()).isEqualTo(26);
    assertThat(plan.musicDbfs()).isCloseTo(-15.802, within(0.001));
    assertThat(plan.clickDbfs()).isCloseTo(-0.802, within(0.001));
    assertThat(plan.musicBehindDbfs()).isCloseTo(-15.802 + 19.274, within(0.001));
    // a click of 0.1 ms is mostly treble: behind the curve it is lower
    assertThat(plan.clickBehindDbfs()).isLessThan(plan.clickDbfs());
    assertThat(plan.curveGainDb()).isCloseTo(-3.472, within(0.001));
    GainPlan loud = plan(40, Level.ofDbu(18), PlaybackCurve.FLAT);
    assertThat(loud.clickDbfs()).isPositive();
    assertThat(loud.curveGainDb()).isNegative();
    assertThatThrownBy(() -> plan(400, Level.ofDbu(18), PlaybackCurve.FLAT))
        .hasMessageContaining("gain");
  }

  @Test
  void whatIsNoLevelIsRefused() {
    for (String text : List.of("5", "mV", "5 dB", "side.wav", "0mV", "5mV5")) {
      assertThatThrownBy(() -> of(text)).isInstanceOf(IllegalArgumentException.class);
    }
    assertThat(Level.isQuantity("5.wav")).isFalse();
  }
}
