package org.groovemend.batch.cluster;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.function.Function;
import org.groovemend.batch.BatchOutcome;
import org.groovemend.batch.BatchPlan;
import org.groovemend.batch.BatchSettings;
import org.groovemend.batch.BatchWatch;
import org.groovemend.batch.Catalogue;
import org.groovemend.batch.CatalogueException;
import org.groovemend.batch.PlannedSide;
import org.groovemend.batch.SideFailure;
import org.groovemend.batch.SideResult;
import org.groovemend.batch.SideTask;
import org.groovemend.delivery.Leftovers;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.restore.Treatment;

/**
 * Has a plan done by an engine, puts results in place as answers come, and keeps the catalogue. The
 * only one who does: see the package.
 */
public final class ClusterRun implements ClusterEngine.Taker {

  private static final String MARK = ".groovemend-cluster-";

  private final Catalogue catalogue;
  private final List<PlannedSide> sides;
  private final Path out;
  private final long run;
  private final BatchSettings settings;
  private final BatchWatch watch;
  private final Consumer<String> log;
  private final Instant now;
  private final boolean[] over;
  private final List<BatchOutcome.FailedSide> failed = new ArrayList<>();
  private int done;
  private int adopted;
  private String stopped;

  private ClusterRun(
      Catalogue catalogue,
      List<PlannedSide> sides,
      Path out,
      long run,
      BatchSettings settings,
      BatchWatch watch,
      Consumer<String> log) {
    this.catalogue = catalogue;
    this.sides = sides;
    this.out = out;
    this.run = run;
    this.settings = settings;
    this.watch = watch;
    this.log = log;
    // one time for the whole run: attempts at a side, wherever made, give the same bytes
    this.now = settings.now() == null ? settings.clock().instant() : settings.now();
    this.over = new boolean[sides.size()];
  }

  /**
   * Does it all; returns when it is done or nothing more can be.
   *
   * @param run number of the run in the catalogue, which holds all sides of the plan
   * @param treatment writes a treatment file that {@link ParcelJob} can read
   */
  public static BatchOutcome run(
      Catalogue catalogue,
      BatchPlan plan,
      Path out,
      long run,
      BatchSettings settings,
      BatchWatch watch,
      Consumer<String> log,
      ClusterEngine engine,
      Function<Treatment, String> treatment)
      throws IOException {
    ClusterRun one =
        new ClusterRun(catalogue, plan.sides(), out.toAbsolutePath(), run, settings, watch, log);
    return one.run(engine, treatment);
  }

  private BatchOutcome run(ClusterEngine engine, Function<Treatment, String> treatment)
      throws IOException {
    long began = System.nanoTime();
    if (!sides.isEmpty()) {
      Path mark = out.resolve(MARK + UUID.randomUUID());
      Set<Path> folders = new HashSet<>();
      for (PlannedSide side : sides) {
        folders.add(out.resolve(side.output().folder()));
      }
      for (Path folder : folders) {
        Files.createDirectories(folder);
      }
      Files.writeString(mark, "Shows workers that they see this folder; goes with the run.\n");
      try {
        engine.run(parcels(mark, treatment), this);
        if (!stopping() && done + failed.size() < sides.size()) {
          throw new ClusterException("the engine ended before all sides were done.", null);
        }
      } catch (ClusterException e) {
        if (!watch.stopping()) {
          stopped = stopped == null ? e.getMessage() : stopped;
          log.accept("stop   " + e.getMessage());
        }
      } finally {
        Files.deleteIfExists(mark);
        sweep(folders);
      }
    }
    int left = sides.size() - done - failed.size();
    return new BatchOutcome(
        done, adopted, failed, left, (System.nanoTime() - began) / 1e9, stopped);
  }

  private List<String> parcels(Path mark, Function<Treatment, String> treatment) {
    List<String> parcels = new ArrayList<>();
    for (PlannedSide side : sides) {
      SideTask task =
          new SideTask(
              side.order(),
              out.resolve(side.output().folder()),
              side.output().name(),
              side.begun() || settings.replace(),
              settings.page(),
              settings.version(),
              now);
      boolean adopt = side.why() != PlannedSide.Why.ASKED;
      parcels.add(
          Parcel.of(
                  side,
                  task,
                  treatment.apply(side.order().treatment()),
                  settings.bags().of(side.order().found()),
                  out,
                  mark,
                  adopt)
              .text());
    }
    return parcels;
  }

  /** Attempts that came second, or whose worker was lost, have left hidden folders. */
  private void sweep(Set<Path> folders) throws IOException {
    for (Path folder : folders) {
      int removed = Leftovers.remove(folder);
      if (removed > 0) {
        log.accept("sweep  " + folder + ": " + removed + " attempts that were not needed");
      }
    }
  }

  @Override
  public boolean stopping() {
    return stopped != null || watch.stopping();
  }

  @Override
  public void note(String line) {
    log.accept("engine " + line);
  }

  @Override
  public void waiting(String sentence) {
    log.accept("engine " + sentence);
    watch.waiting(sentence);
  }

  @Override
  public void begun(int parcel) {
    if (!over[parcel]) {
      watch.begun(sides.get(parcel));
    }
  }

  @Override
  public void lost(int parcel, String reason) {
    over(parcel, side -> fail(side, new SideFailure("lost", reason), 0));
  }

  @Override
  public void take(int parcel, String text) {
    over(parcel, side -> answered(side, Answer.of(text)));
  }

  private interface Entry {
    void enter(PlannedSide side) throws IOException;
  }

  private void over(int parcel, Entry entry) {
    if (over[parcel] || stopped != null) {
      return;
    }
    over[parcel] = true;
    try {
      entry.enter(sides.get(parcel));
    } catch (IOException e) {
      // without its catalogue a run could not be gone on with
      stopped = e.getMessage();
      log.accept("stop   " + e.getMessage());
      watch.over(sides.get(parcel), false, 0);
    }
  }

  private void answered(PlannedSide side, Answer answer) throws IOException {
    Instant at = settings.clock().instant();
    Instant start = at.minusNanos((long) (answer.seconds() * 1e9));
    if (answer.failure() != null) {
      if (answer.begun()) {
        catalogue.started(run, side, start);
      }
      fail(side, answer.failure(), answer.seconds());
      return;
    }
    SideResult result = answer.result().result();
    try {
      if (answer.hidden() == null) {
        adopted++;
      } else {
        put(side, answer, start);
      }
    } catch (CatalogueException e) {
      throw e;
    } catch (IOException | RuntimeException e) {
      fail(side, told(e, side, answer), answer.seconds());
      return;
    }
    catalogue.done(side, settings.version(), result, at);
    done++;
    watch.over(side, true, answer.seconds());
    log.accept(
        String.format(
            Locale.ROOT,
            "done   %s: %.1f s on %s",
            place(side),
            answer.seconds(),
            answer.worker()));
  }

  private void put(PlannedSide side, Answer answer, Instant start) throws IOException {
    List<Path> inputs = new ArrayList<>(List.of(side.order().found().file()));
    if (side.order().grooveOf() != null) {
      inputs.add(side.order().grooveOf());
    }
    try (OutputSet set =
        OutputSet.takeUp(
            out.resolve(side.output().folder()),
            answer.hidden(),
            answer.files(),
            side.begun() || settings.replace(),
            inputs)) {
      // from now on what lies under its names is ours
      catalogue.started(run, side, start);
      set.commit();
    }
  }

  private SideFailure told(Exception trouble, PlannedSide side, Answer answer) {
    return trouble instanceof NoSuchFileException unseen
        ? new SideFailure(
            "storage",
            unseen.getMessage()
                + ": worker "
                + answer.worker()
                + " left results there, which are not seen here; results must lie on storage that"
                + " every machine has under the same path.")
        : settings.explain().apply(trouble, side.order());
  }

  private void fail(PlannedSide side, SideFailure failure, double seconds) throws IOException {
    BatchOutcome.FailedSide one = new BatchOutcome.FailedSide(side, failure);
    log.accept("failed " + one.sentence());
    failed.add(one);
    catalogue.failed(side, failure, seconds, settings.clock().instant());
    watch.over(side, false, seconds);
  }

  private static String place(PlannedSide side) {
    return side.order().found().place();
  }
}
