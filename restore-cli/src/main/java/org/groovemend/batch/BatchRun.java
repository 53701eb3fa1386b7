package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicInteger;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.stage.Crew;

/**
 * Does what a plan says: sides at once, as many as threads and memory allow, the longest first,
 * each on one thread; a side that is longer than its share of the rest gets all threads. What fails
 * is noted, the rest goes on. A side for which memory did not suffice is tried once more at the
 * end, alone.
 */
public final class BatchRun {

  /** Room that stays free on the disk for the catalogue and others, bytes. */
  private static final long FREE_BYTES = 32L << 20;

  private final Catalogue catalogue;
  private final Path out;
  private final long run;
  private final BatchSettings settings;
  private final Crew crew;
  private final BatchWatch watch;
  private final BatchLog log;
  private final SideWork work;
  private final SideQueue queue;
  private final Budget memory;
  private final AtomicInteger done = new AtomicInteger();
  private final AtomicInteger adopted = new AtomicInteger();
  private final List<BatchOutcome.FailedSide> failed =
      Collections.synchronizedList(new ArrayList<>());
  private final List<PlannedSide> again = Collections.synchronizedList(new ArrayList<>());
  private final DiskRoom disk;
  private volatile String stopped;

  private BatchRun(
      Catalogue catalogue,
      BatchPlan plan,
      Path out,
      long run,
      BatchSettings settings,
      Crew crew,
      BatchWatch watch,
      BatchLog log,
      SideWork work) {
    this.catalogue = catalogue;
    this.out = out;
    this.run = run;
    this.settings = settings;
    this.crew = crew;
    this.watch = watch;
    this.log = log;
    this.work = work;
    this.queue = new SideQueue(plan.sides(), settings.threads());
    this.memory = new Budget(settings.memoryBytes());
    this.disk = new DiskRoom(out, FREE_BYTES);
  }

  /**
   * Does it all; returns when it is done or nothing more can be.
   *
   * @param run number of the run in the catalogue, which holds all sides of the plan
   * @param crew of all threads, for sides that get them all
   * @param work what does one side
   */
  static BatchOutcome run(
      Catalogue catalogue,
      BatchPlan plan,
      Path out,
      long run,
      BatchSettings settings,
      Crew crew,
      BatchWatch watch,
      BatchLog log,
      SideWork work) {
    return new BatchRun(catalogue, plan, out, run, settings, crew, watch, log, work).run();
  }

  private BatchOutcome run() {
    long began = System.nanoTime();
    List<Thread> workers = new ArrayList<>();
    for (int i = 0; i < Math.min(settings.threads(), queue.size()); i++) {
      Thread worker = new Thread(this::workOn, "groovemend-side-" + (i + 1));
      worker.setDaemon(true);
      worker.start();
      workers.add(worker);
    }
    boolean interrupted = false;
    for (Thread worker : workers) {
      while (worker.isAlive()) {
        try {
          worker.join();
        } catch (InterruptedException e) {
          interrupted = true;
          stopped = "interrupted";
        }
      }
    }
    for (PlannedSide side : List.copyOf(again)) {
      if (!stopping()) {
        one(side, 1, true);
      }
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
    int left = queue.planned() - done.get() - failed.size();
    return new BatchOutcome(
        done.get(), adopted.get(), failed, left, (System.nanoTime() - began) / 1e9, stopped);
  }

  private boolean stopping() {
    return stopped != null || watch.stopping();
  }

  private void workOn() {
    while (!stopping()) {
      SideQueue.Next next = queue.next();
      if (next == null) {
        return;
      }
      one(next.side(), next.hands(), false);
    }
  }

  /**
   * One side.
   *
   * @param last true if memory that does not suffice is a failure now
   * @return false if it was stopped before its end
   */
  private boolean one(PlannedSide side, int hands, boolean last) {
    long began = System.nanoTime();
    try {
      try {
        attempt(side, hands, began);
      } catch (CancellationException e) {
        catalogue.stopped(side);
        watch.over(side, false, seconds(began));
        return false;
      } catch (CatalogueException e) {
        throw e;
      } catch (OutOfMemoryError e) {
        if (!last) {
          log.line("again  " + place(side) + ": not enough memory beside others");
          again.add(side);
          return true;
        }
        fail(side, e, began);
      } catch (IOException | RuntimeException | VirtualMachineError e) {
        fail(side, e, began);
      }
    } catch (IOException e) {
      // without its catalogue a run could not be gone on with
      stopped = e.getMessage();
      log.line("stop   " + e.getMessage());
      watch.over(side, false, seconds(began));
      return false;
    }
    return true;
  }

  private void attempt(PlannedSide side, int hands, long began) throws IOException {
    SideTask task = task(side);
    Progress progress = watch.begun(side);
    Needs needs = needs(side, hands);
    try {
      memory.take(needs.memory());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CancellationException("interrupted");
    }
    try {
      disk.take(needs.disk());
      try {
        SideResult result = result(side, task, hands, progress);
        catalogue.done(side, settings.version(), result, settings.clock().instant());
        done.incrementAndGet();
        watch.over(side, true, seconds(began));
        log.line(String.format(Locale.ROOT, "done   %s: %.1f s", place(side), result.seconds()));
      } finally {
        disk.giveBack(needs.disk());
      }
    } finally {
      memory.giveBack(needs.memory());
    }
  }

  private SideResult result(PlannedSide side, SideTask task, int hands, Progress progress)
      throws IOException {
    if (side.why() != PlannedSide.Why.ASKED) {
      SideResult there = SideJob.adopt(task, side.sha256(), progress);
      if (there != null) {
        adopted.incrementAndGet();
        return there;
      }
    }
    SideJob.requireFree(task);
    InBag bag = settings.bags().of(side.order().found());
    if (bag != null) {
      bag.check(progress);
    }
    Files.createDirectories(task.outFolder());
    catalogue.started(run, side, settings.clock().instant());
    return work.run(task, hands == 1 ? Crew.alone() : crew, progress);
  }

  private SideTask task(PlannedSide side) {
    return new SideTask(
        side.order(),
        out.resolve(side.output().folder()),
        side.output().name(),
        side.begun() || settings.replace(),
        settings.page(),
        settings.version(),
        settings.now() == null ? settings.clock().instant() : settings.now());
  }

  private record Needs(long memory, long disk) {}

  /** What a side needs, told by its header; a side that cannot be read needs nothing. */
  private Needs needs(PlannedSide side, int hands) {
    SideOrder order = side.order();
    try (SideReader reader = SideFiles.open(order.found().file())) {
      return new Needs(
          SideCost.memory(reader.format(), order.treatment(), hands),
          SideCost.bytes(reader.format(), reader.frames(), order.treatment(), settings.page()));
    } catch (IOException | RuntimeException e) {
      return new Needs(0, 0);
    }
  }

  private void fail(PlannedSide side, Throwable trouble, long began) throws IOException {
    SideFailure failure =
        trouble instanceof DiskRoom.TooLittleException room
            ? new SideFailure("io", room.getMessage())
            : settings.explain().apply(trouble, side.order());
    BatchOutcome.FailedSide one = new BatchOutcome.FailedSide(side, failure);
    log.line("failed " + one.sentence());
    failed.add(one);
    catalogue.failed(side, failure, seconds(began), settings.clock().instant());
    watch.over(side, false, seconds(began));
  }

  private static String place(PlannedSide side) {
    return side.order().found().place();
  }

  private static double seconds(long began) {
    return (System.nanoTime() - began) / 1e9;
  }
}
