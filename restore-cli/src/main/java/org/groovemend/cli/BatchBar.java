package org.groovemend.cli;

import java.io.PrintStream;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;
import java.util.function.LongSupplier;
import org.groovemend.batch.BatchPlan;
import org.groovemend.batch.BatchWatch;
import org.groovemend.batch.PlannedSide;
import org.groovemend.chain.Progress;

/**
 * One line on a terminal for a whole collection: how many sides are over, how long the rest will
 * take, and what the side begun last is at. Without a terminal it draws nothing and only stops the
 * work when the process is told to end.
 *
 * <p>The time left is what the sides to come were guessed to take, times what those so far took for
 * each second guessed; at first earlier runs count, more and more this one.
 */
final class BatchBar implements BatchWatch {

  private static final int WIDTH = 24;
  private static final int COLUMNS = 98;
  private static final long EVERY_NANOS = 300_000_000L;

  /** Guessed seconds of work after which this run counts as much as all earlier ones. */
  private static final double PRIOR_SECONDS = 20;

  /** How far a side that takes longer than guessed is at most. */
  private static final double NEARLY = 0.9;

  private static final class Running {
    final long began;
    String step = "";
    int percent;

    Running(long began) {
      this.began = began;
    }
  }

  private final PrintStream out;
  private final LongSupplier nanoClock;
  private final BooleanSupplier stopping;
  private final int threads;
  private final int sides;
  private final double total;
  private final double prior;
  private final long began;
  private final Map<PlannedSide, Running> running = new LinkedHashMap<>();
  private double over;
  private int done;
  private int failed;
  private long lastDrawn;
  private boolean drawn;

  /**
   * @param out where to draw, or null
   */
  BatchBar(
      PrintStream out,
      LongSupplier nanoClock,
      BatchPlan plan,
      int threads,
      BooleanSupplier stopping) {
    this.out = out;
    this.nanoClock = nanoClock;
    this.stopping = stopping;
    this.threads = threads;
    this.sides = plan.sides().size();
    this.total = plan.sides().stream().mapToDouble(PlannedSide::expectedSeconds).sum();
    this.prior = plan.factor();
    this.began = nanoClock.getAsLong();
  }

  @Override
  public synchronized void waiting(String sentence) {
    clear();
    (out == null ? System.err : out).println("groovemend: " + sentence);
  }

  @Override
  public boolean stopping() {
    return stopping.getAsBoolean();
  }

  @Override
  public synchronized Progress begun(PlannedSide side) {
    running.put(side, new Running(nanoClock.getAsLong()));
    draw(false);
    return (step, steps, of) -> at(side, step, steps, of);
  }

  private void at(PlannedSide side, String step, long steps, long of) {
    if (stopping()) {
      throw new CancellationException("interrupted");
    }
    if (out == null) {
      return;
    }
    synchronized (this) {
      Running at = running.get(side);
      if (at != null) {
        at.step = step;
        at.percent = of == 0 ? 100 : (int) (100 * steps / of);
        draw(false);
      }
    }
  }

  @Override
  public synchronized void over(PlannedSide side, boolean isDone, double seconds) {
    running.remove(side);
    over += side.expectedSeconds();
    if (isDone) {
      done++;
    } else {
      failed++;
    }
    draw(true);
  }

  private void draw(boolean now) {
    long time = nanoClock.getAsLong();
    if (out == null || !now && drawn && time - lastDrawn < EVERY_NANOS) {
      return;
    }
    lastDrawn = time;
    drawn = true;
    out.print('\r' + line(time));
    out.flush();
  }

  /** Seconds that the rest will take. */
  double secondsLeft(long now) {
    double spent = (now - began) / 1e9 * threads;
    double behind = over;
    // what a second guessed takes shows only in sides that are over
    double inHand = 0;
    for (Map.Entry<PlannedSide, Running> one : running.entrySet()) {
      double seconds = (now - one.getValue().began) / 1e9;
      inHand += Math.min(seconds / prior, NEARLY * one.getKey().expectedSeconds());
    }
    double factor = (prior * PRIOR_SECONDS + spent) / (PRIOR_SECONDS + behind + inHand);
    return factor * Math.max(0, total - behind - inHand) / threads;
  }

  String line(long now) {
    double share = sides == 0 ? 1 : (done + failed) / (double) sides;
    int full = (int) (share * WIDTH);
    StringBuilder text = new StringBuilder();
    text.append('[')
        .append("=".repeat(full))
        .append(" ".repeat(WIDTH - full))
        .append("] ")
        .append(done + failed)
        .append(" of ")
        .append(sides);
    if (failed > 0) {
      text.append(", ").append(failed).append(" failed");
    }
    text.append(", ").append(ProgressBar.duration(secondsLeft(now))).append(" left");
    for (Map.Entry<PlannedSide, Running> one : running.entrySet()) {
      String place = one.getKey().order().found().place();
      text.append("  ")
          .append(place.substring(place.lastIndexOf('/') + 1))
          .append(' ')
          .append(one.getValue().step)
          .append(String.format(Locale.ROOT, " %d %%", one.getValue().percent));
    }
    if (text.length() > COLUMNS) {
      text.setLength(COLUMNS);
    }
    return text + " ".repeat(COLUMNS - text.length());
  }

  /** Clears the line so that what follows starts clean. */
  synchronized void clear() {
    if (drawn) {
      out.print('\r' + " ".repeat(COLUMNS) + '\r');
      out.flush();
    }
  }
}
