package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RecurrenceTest {
  private static final int RATE = 48_000;
  private static final double TURN = RATE * 60 / 78.26;
  private static final long SIDE = 6L * RATE;

  private final List<Gap> gaps = new ArrayList<>();

  @Test
  void aScratchSaysWhereItsNextTickLies() {
    scratch(5000, 150);
    scratched(40);
    // the fourth tick of the scratch was not sure enough by itself
    long missing = 5000 + Math.round(3 * (TURN + 150));
    gaps.removeIf(g -> Math.abs(g.start() - missing) < 10);
    Recurrence recurrence = recurrence(TURN);
    assertThat(recurrence.evidence(missing)).isGreaterThan(1);
    assertThat(recurrence.evidence(missing + 200)).isZero();
  }

  @Test
  void nothingIsSaidWithoutAScratch() {
    scratched(60);
    Recurrence recurrence = recurrence(TURN);
    for (long frame = 0; frame < SIDE; frame += 999) {
      assertThat(recurrence.evidence(frame)).isLessThan(1);
    }
  }

  @Test
  void nothingIsSaidWithoutASpeed() {
    scratch(5000, 0);
    Recurrence recurrence = recurrence(Double.NaN);
    assertThat(recurrence.evidence(5000)).isZero();
  }

  @Test
  void anotherSpeedIsNotMetByTheScratch() {
    scratch(5000, 0);
    Recurrence recurrence = recurrence(TURN * 1.2);
    assertThat(recurrence.evidence(5000 + Math.round(TURN))).isZero();
  }

  private Recurrence recurrence(double turn) {
    gaps.sort((p, q) -> Long.compare(p.start(), q.start()));
    return new Recurrence(turn, RATE, List.of(gaps), 0, SIDE);
  }

  private void scratch(long first, double drift) {
    for (double frame = first; frame < SIDE; frame += TURN + drift) {
      add(Math.round(frame));
    }
  }

  private void scratched(int ticks) {
    Random random = new Random(5);
    for (int i = 0; i < ticks; i++) {
      add((long) (random.nextDouble() * SIDE));
    }
  }

  private void add(long start) {
    Candidate k = new Candidate(start, 10, 0, 5, 5, 1, new double[10], new double[Trait.COUNT]);
    gaps.add(new Gap(start, start + 10, List.of(k), 2, null));
  }
}
