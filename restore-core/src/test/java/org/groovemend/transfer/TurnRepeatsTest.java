package org.groovemend.transfer;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** Turns that the test itself played twice. */
class TurnRepeatsTest {

  private static List<TurnRepeat> find(double[][] x) {
    TurnRepeats repeats = new TurnRepeats(WornSide.RATE);
    WornSide.feed(repeats, null, x, 65_536);
    return repeats.finish();
  }

  private static double[][] side() {
    return WornSide.samples(WornSide.words(24), 24);
  }

  /** The side with the turn before {@code at} played {@code more} times again. */
  private static double[][] stuck(double[][] x, int at, double turnSeconds, int more) {
    int turn = (int) Math.round(turnSeconds * WornSide.RATE);
    double[][] out = new double[2][x[0].length + more * turn];
    for (int c = 0; c < 2; c++) {
      System.arraycopy(x[c], 0, out[c], 0, at);
      for (int k = 0; k < more; k++) {
        System.arraycopy(x[c], at - turn, out[c], at + k * turn, turn);
      }
      System.arraycopy(x[c], at, out[c], at + more * turn, x[c].length - at);
    }
    return out;
  }

  @Test
  void musicAloneDoesNotRepeat() {
    assertThat(find(side())).isEmpty();
  }

  @Test
  void turnsPlayedAgainAreFoundWithTheirNumber() {
    for (double rpm : new double[] {78.26, 45, 100 / 3.0}) {
      for (int more : new int[] {1, 4}) {
        int at = (int) WornSide.musicStart() + 8 * WornSide.RATE;
        List<TurnRepeat> found = find(stuck(side(), at, 60 / rpm, more));
        assertThat(found).as(rpm + " rpm, " + more).hasSize(1);
        TurnRepeat one = found.get(0);
        assertThat(one.turnSeconds()).isCloseTo(60 / rpm, Offset.offset(0.002));
        assertThat(one.turns()).isCloseTo(more, Offset.offset(0.4));
        assertThat(one.fromFrame() / (double) WornSide.RATE)
            .isCloseTo(at / (double) WornSide.RATE - 60 / rpm, Offset.offset(0.4));
      }
    }
  }

  @Test
  void aHeldNoteIsNoRepeat() {
    double[][] x = new double[2][10 * WornSide.RATE];
    for (int i = 0; i < x[0].length; i++) {
      double t = i / (double) WornSide.RATE;
      x[0][i] =
          0.1 * StrictMath.sin(2 * Math.PI * 220 * t)
              + 0.05 * StrictMath.sin(2 * Math.PI * 440 * t);
      x[1][i] = x[0][i];
    }
    assertThat(find(x)).isEmpty();
  }
}
