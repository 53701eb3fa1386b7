package org.groovemend.cli;

import java.io.PrintStream;
import java.util.Locale;
import java.util.function.LongSupplier;
import org.groovemend.chain.Progress;

/**
 * One line on a terminal that says what is done and how long the rest will take. Writes nothing
 * anywhere else.
 *
 * <p>The steps of a side share one bar: each has a weight, its usual share of the time.
 */
final class ProgressBar implements Progress {

  private static final int WIDTH = 30;
  private static final long EVERY_NANOS = 200_000_000L;

  private final PrintStream out;
  private final LongSupplier nanoClock;
  private final String label;
  private long stepStarted;
  private long lastDrawn;
  private String currentStep = "";
  private boolean drawn;

  ProgressBar(PrintStream out, LongSupplier nanoClock, String label) {
    this.out = out;
    this.nanoClock = nanoClock;
    this.label = label;
  }

  /** A bar on standard error if that is a terminal a person watches, else silence. */
  static Progress onTerminal(String label) {
    return isTerminal(System.console())
        ? new ProgressBar(System.err, System::nanoTime, label)
        : Progress.SILENT;
  }

  /**
   * From Java 22 on there is a console without a terminal too; it can be asked, but not yet by Java
   * 17.
   */
  static boolean isTerminal(Object console) {
    if (console == null) {
      return false;
    }
    try {
      return (boolean) console.getClass().getMethod("isTerminal").invoke(console);
    } catch (NoSuchMethodException e) {
      return true;
    } catch (ReflectiveOperationException e) {
      return false;
    }
  }

  @Override
  public void at(String step, long done, long total) {
    long now = nanoClock.getAsLong();
    if (!step.equals(currentStep)) {
      currentStep = step;
      stepStarted = now;
      lastDrawn = 0;
    }
    if (drawn && done < total && now - lastDrawn < EVERY_NANOS) {
      return;
    }
    lastDrawn = now;
    drawn = true;
    out.print('\r' + line(done, total, now - stepStarted));
    out.flush();
  }

  String line(long done, long total, long elapsedNanos) {
    double share = total == 0 ? 1 : Math.min(1, done / (double) total);
    int full = (int) (share * WIDTH);
    String rest = "";
    if (share > 0.02 && elapsedNanos > 1_000_000_000L && share < 1) {
      rest = duration(elapsedNanos / 1e9 * (1 - share) / share) + " left";
    }
    return String.format(
        Locale.ROOT,
        "%s  %-12s [%s%s] %3d %% %-14s",
        label,
        currentStep,
        "=".repeat(full),
        " ".repeat(WIDTH - full),
        (int) (share * 100),
        rest);
  }

  static String duration(double seconds) {
    long whole = Math.round(seconds);
    return whole < 60
        ? whole + " s"
        : whole < 3600
            ? String.format(Locale.ROOT, "%d:%02d min", whole / 60, whole % 60)
            : String.format(Locale.ROOT, "%d:%02d h", whole / 3600, whole / 60 % 60);
  }

  /** Clears the line so that what follows starts clean. */
  static void clear(Progress progress) {
    if (progress instanceof ProgressBar bar) {
      bar.clear();
    }
  }

  private void clear() {
    if (drawn) {
      out.print('\r' + " ".repeat(line(0, 1, 0).length()) + '\r');
      out.flush();
    }
  }
}
