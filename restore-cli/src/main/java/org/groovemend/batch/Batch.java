package org.groovemend.batch;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.groovemend.delivery.Leftovers;
import org.groovemend.stage.Crew;

/** An output folder in the hands of one run: its lock, its catalogue, its log. */
public final class Batch implements Closeable {

  static final String LOCK = "batch.lock";

  private final Path out;
  private final Clock clock;
  private final BatchLock lock;
  private final Catalogue catalogue;
  private final BatchLog log;

  private Batch(Path out, Clock clock, BatchLock lock, Catalogue catalogue, BatchLog log) {
    this.out = out;
    this.clock = clock;
    this.lock = lock;
    this.catalogue = catalogue;
    this.log = log;
  }

  /**
   * Takes an output folder; makes it if it is missing.
   *
   * @param shard which part of the collection, from 1: each has files of its own
   * @param shards parts there are, 1 for a whole collection
   * @throws CatalogueException if another run has it, or its catalogue cannot be used
   */
  public static Batch open(Path out, int shard, int shards, Clock clock) throws IOException {
    Files.createDirectories(out);
    String part = part(shard, shards);
    BatchLock lock = BatchLock.take(out.resolve(part + LOCK), clock.instant());
    try {
      return new Batch(
          out,
          clock,
          lock,
          Catalogue.open(out.resolve(part + Catalogue.NAME)),
          BatchLog.open(out.resolve(part + BatchLog.NAME), clock));
    } catch (IOException e) {
      lock.close();
      throw e;
    }
  }

  /** What the files of a part of a collection begin with. */
  public static String part(int shard, int shards) {
    return shards == 1 ? "" : "shard-" + shard + "-of-" + shards + ".";
  }

  /** The catalogue. */
  public Catalogue catalogue() {
    return catalogue;
  }

  /** Adds a line to the log. */
  public void log(String line) {
    log.line(line);
  }

  /**
   * Does what a plan says, and keeps the catalogue.
   *
   * @param roots names of the folders of the collection
   * @param rows of the catalogue that the plan was made with
   * @param crew of all threads
   * @param alone true if no other part of the collection is written to this folder
   */
  public BatchOutcome run(
      BatchPlan plan,
      Map<String, String> roots,
      Map<String, SideRow> rows,
      BatchSettings settings,
      Crew crew,
      BatchWatch watch,
      boolean alone)
      throws IOException {
    return run(
        plan,
        roots,
        rows,
        settings,
        alone,
        run -> BatchRun.run(catalogue, plan, out, run, settings, crew, watch, log, SideJob::run));
  }

  /** Who does what a plan says, given the number of the run. */
  @FunctionalInterface
  public interface Doer {
    BatchOutcome run(long run) throws IOException;
  }

  /** The same by others than the threads of this machine. */
  public BatchOutcome run(
      BatchPlan plan,
      Map<String, String> roots,
      Map<String, SideRow> rows,
      BatchSettings settings,
      boolean alone,
      Doer doer)
      throws IOException {
    if (alone) {
      sweep(rows);
    }
    RunFacts facts =
        new RunFacts(
            settings.version(),
            settings.threads(),
            settings.memoryBytes(),
            plan.sides().size() + plan.skipped().size(),
            plan.skipped().size(),
            plan.sides().size());
    long run = catalogue.begin(facts, clock.instant(), roots, plan.sides());
    log.line(
        "begin  run "
            + run
            + ": "
            + facts.planned()
            + " sides, "
            + facts.skipped()
            + " done before");
    BatchOutcome outcome = doer.run(run);
    String word =
        outcome.stopped() != null ? outcome.stopped() : outcome.left() > 0 ? "interrupted" : "over";
    log.line(
        "end    run "
            + run
            + ": "
            + outcome.done()
            + " done, "
            + outcome.failed().size()
            + " failed, "
            + outcome.left()
            + " left; "
            + word);
    if (outcome.stopped() == null) {
      catalogue.end(run, outcome.done(), outcome.failed().size(), word, clock.instant());
    }
    return outcome;
  }

  /**
   * Removes what a run that was killed, or could not clear away, has left hidden beside results.
   */
  private void sweep(Map<String, SideRow> rows) throws IOException {
    Set<Path> folders = new HashSet<>();
    for (SideRow row : rows.values()) {
      // workers elsewhere may have been at sides that wait here
      if (row.state() != SideState.DONE) {
        folders.add(out.resolve(row.output().folder()));
      }
    }
    for (Path folder : folders) {
      int removed = Leftovers.remove(folder);
      if (removed > 0) {
        log.line(
            "sweep  " + folder + ": " + removed + " unfinished outputs of a run that was killed");
      }
    }
  }

  /** What is known of an output folder without taking it: names of folders, and sides. */
  public record Known(Map<String, String> roots, Map<String, SideRow> rows) {}

  /** Looks at an output folder; writes nothing. */
  public static Known look(Path out, int shard, int shards) throws IOException {
    Path file = out.resolve(part(shard, shards) + Catalogue.NAME);
    if (!Files.exists(file)) {
      return new Known(new HashMap<>(), Map.of());
    }
    try (Catalogue catalogue = Catalogue.read(file)) {
      return new Known(catalogue.roots(), catalogue.rows());
    }
  }

  @Override
  public void close() throws IOException {
    log.close();
    try {
      catalogue.close();
    } finally {
      lock.close();
    }
  }
}
