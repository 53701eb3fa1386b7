package org.groovemend.rotation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;

class TickGathererTest {

  @Test
  void bothWallsOfABlowAreOneTick() {
    TickGatherer gatherer = new TickGatherer(10_000);
    gatherer.add(100, 3);
    gatherer.add(102, 9);
    gatherer.add(139, 4);
    gatherer.add(150, 1);
    assertThat(gatherer.seen()).isEqualTo(2);
    assertThat(gatherer.ticks()).containsExactly(new Tick(102, 9), new Tick(150, 1));
  }

  @Test
  void theStrongestOfASecondAreKeptInOrder() {
    TickGatherer gatherer = new TickGatherer(10_000);
    for (int i = 0; i < 100; i++) {
      gatherer.add(i * 100L, i % 10);
    }
    List<Tick> ticks = gatherer.ticks();
    assertThat(ticks).hasSize(TickGatherer.A_SECOND);
    assertThat(ticks).allMatch(t -> t.strength() >= 7);
    assertThat(ticks).extracting(Tick::frame).isSorted();
    assertThat(gatherer.seen()).isEqualTo(100);
  }

  @Test
  void memoryDoesNotGrowWithLength() {
    TickGatherer gatherer = new TickGatherer(1000);
    for (int i = 0; i < 200_000; i++) {
      gatherer.add(i * 20L, i % 7);
    }
    assertThat(gatherer.seen()).isEqualTo(200_000);
    List<Tick> ticks = gatherer.ticks();
    assertThat(ticks).hasSizeBetween(TickGatherer.MOST / 4, TickGatherer.MOST);
    // all of the side is still there
    assertThat(ticks.get(0).frame()).isLessThan(1000);
    assertThat(ticks.get(ticks.size() - 1).frame()).isGreaterThan(3_998_000);
  }

  @Test
  void unknownStrengthIsTheLeast() {
    TickGatherer gatherer = new TickGatherer(10_000);
    gatherer.add(0, Double.NaN);
    gatherer.add(5, -1e6);
    assertThat(gatherer.ticks()).containsExactly(new Tick(5, -1e6));
  }

  @Test
  void placesOutOfOrderAreRefused() {
    TickGatherer gatherer = new TickGatherer(10_000);
    gatherer.add(500, 1);
    assertThatThrownBy(() -> gatherer.add(499, 1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("499");
  }
}
