package org.groovemend.plays;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.function.DoubleUnaryOperator;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.Test;

class AlignerTest {
  private static final int RATE = 44_100;
  private static final int SECONDS = 16;

  /** 30 dB below the music. */
  private static final double NOISE = 0.002;

  @Test
  void followsDifferingWowToATwentiethOfASample() throws Exception {
    DoubleUnaryOperator a = InventedDisc.wow(1, 0, 0.0015, 1.3, 0.3);
    DoubleUnaryOperator b = InventedDisc.wow(1.003, -1.2, 0.002, 1.3, 2.0);
    InventedDisc disc = new InventedDisc(5, 0.5, SECONDS);
    Alignment found =
        new Aligner(play(disc, a, RATE, 1), Crew.alone()).align(play(disc, b, RATE, 2));

    // the truth by bisection of the needle's formula
    PlayMap map = found.map(RATE, RATE, 0);
    double square = 0;
    double inDoubt = 0;
    int n = 0;
    for (double t = 1.5; t < SECONDS - 3; t += 0.01) {
      double truth = InventedDisc.inverse(b, a.applyAsDouble(t));
      double error = (map.playSeconds(t) - truth) * RATE;
      double doubt = found.doubtSeconds(t) * RATE;
      square += error * error;
      inDoubt += error * error / (doubt * doubt);
      n++;
    }
    assertThat(Math.sqrt(square / n)).as("rms error, samples").isLessThan(0.05);
    // the stated doubt is that of the errors, within a factor of 2
    assertThat(Math.sqrt(inDoubt / n)).as("error over doubt").isBetween(0.3, 2.0);
    assertThat(found.opposed()).isFalse();
    assertThat(found.likeness()).isGreaterThan(0.9);
  }

  @Test
  void anotherRateAndOppositeSenseAreNoHindrance() throws Exception {
    DoubleUnaryOperator a = InventedDisc.wow(1, 0, 0.001, 0.555, 0.3);
    DoubleUnaryOperator b = InventedDisc.wow(0.996, 0.4, 0.001, 0.555, 2.0);
    InventedDisc disc = new InventedDisc(6, 0.5, SECONDS);
    ArrayRanges other = play(disc, b, 48_000, 2);
    for (double[] channel : other.samples()) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] = -channel[i];
      }
    }
    Alignment found = new Aligner(play(disc, a, RATE, 1), Crew.alone()).align(other);
    PlayMap map = found.map(RATE, 48_000, 0);
    double most = 0;
    for (double t = 2; t < SECONDS - 3; t += 0.01) {
      double truth = InventedDisc.inverse(b, a.applyAsDouble(t));
      most = Math.max(most, Math.abs(map.playSeconds(t) - truth) * RATE);
    }
    assertThat(most).as("largest error, samples").isLessThan(0.25);
    assertThat(found.opposed()).isTrue();
  }

  @Test
  void anotherPerformanceIsRefused() throws Exception {
    // the same notes at the same moments, but other tones: a quarter tone higher, other phases
    DoubleUnaryOperator a = InventedDisc.wow(1, 0, 0.001, 1.3, 0);
    ArrayRanges one = play(new InventedDisc(5, 0.5, SECONDS), a, RATE, 1);
    ArrayRanges other = play(new InventedDisc(5, 0.5, SECONDS).retuned(1.0293), a, RATE, 2);
    assertThatThrownBy(() -> new Aligner(one, Crew.alone()).align(other))
        .isInstanceOf(NotOnePerformanceException.class);
  }

  @Test
  void unrelatedRecordingsAreRefused() throws Exception {
    DoubleUnaryOperator a = InventedDisc.wow(1, 0, 0.001, 1.3, 0);
    ArrayRanges one = play(new InventedDisc(5, 0.5, SECONDS), a, RATE, 1);
    for (int seed = 50; seed < 53; seed++) {
      ArrayRanges other = play(new InventedDisc(seed, 0.5, SECONDS), a, RATE, seed);
      assertThatThrownBy(() -> new Aligner(one, Crew.alone()).align(other))
          .isInstanceOf(NotOnePerformanceException.class);
    }
  }

  @Test
  void tooLittleInCommonIsRefused() throws Exception {
    DoubleUnaryOperator a = InventedDisc.wow(1, 0, 0.001, 1.3, 0);
    DoubleUnaryOperator late = InventedDisc.wow(1, SECONDS - 4, 0.001, 1.3, 0);
    InventedDisc disc = new InventedDisc(5, 0.5, 2 * SECONDS);
    ArrayRanges one = play(disc, a, RATE, 1);
    ArrayRanges other = play(disc, late, RATE, 2);
    assertThatThrownBy(() -> new Aligner(one, Crew.alone()).align(other))
        .isInstanceOf(NotOnePerformanceException.class);
  }

  private static ArrayRanges play(
      InventedDisc disc, DoubleUnaryOperator needle, int rate, long seed) {
    double[] groove = InventedDisc.groove(rate, SECONDS * rate, needle);
    double[] x = disc.sound(groove, 0);
    InventedDisc.add(x, InventedDisc.noise(seed, x.length, NOISE));
    return InventedDisc.side(rate, x);
  }
}
