package org.groovemend.rotation;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;

/** Ticks of an invented disc: strewn at random, and in rows. */
final class InventedTicks {

  static final int RATE = 48_000;

  private final Random random;
  private final double seconds;
  private final List<Tick> ticks = new ArrayList<>();

  InventedTicks(long seed, double seconds) {
    this.random = new Random(seed);
    this.seconds = seconds;
  }

  InventedTicks strewn(double aSecond) {
    for (int i = 0; i < aSecond * seconds; i++) {
      add(random.nextDouble() * seconds);
    }
    return this;
  }

  /** One tick a turn, a little early or late as a detector has it, one in eight missing. */
  InventedTicks scratch(double from, double period, int turns) {
    for (int k = 0; k < turns; k++) {
      if (k == 0 || random.nextInt(8) > 0) {
        add(from + k * period + 1e-4 * random.nextGaussian());
      }
    }
    return this;
  }

  /**
   * The same ticks, each moved by up to a tenth of a second: as dense, and nothing even is left.
   */
  InventedTicks shaken() {
    ticks.replaceAll(
        t -> new Tick(Math.max(0, t.frame() + random.nextInt(RATE / 5) - RATE / 10), t.strength()));
    return this;
  }

  private void add(double time) {
    if (time >= 0 && time < seconds) {
      ticks.add(new Tick(Math.round(time * RATE), 5 + 10 * random.nextDouble()));
    }
  }

  TickGatherer gathered() {
    TickGatherer gatherer = new TickGatherer(RATE);
    ticks.stream()
        .sorted(Comparator.comparingLong(Tick::frame))
        .forEach(t -> gatherer.add(t.frame(), t.strength()));
    return gatherer;
  }
}
