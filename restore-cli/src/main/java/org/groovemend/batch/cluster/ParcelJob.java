package org.groovemend.batch.cluster;

import java.io.IOException;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.batch.Budget;
import org.groovemend.batch.DiskRoom;
import org.groovemend.batch.InBag;
import org.groovemend.batch.SideCost;
import org.groovemend.batch.SideFailure;
import org.groovemend.batch.SideJob;
import org.groovemend.batch.SideOrder;
import org.groovemend.batch.SideResult;
import org.groovemend.batch.SideTask;
import org.groovemend.chain.Progress;
import org.groovemend.job.restore.Treatment;
import org.groovemend.stage.Crew;

/** What a worker does with a parcel. Can be done any number of times, anywhere, at once. */
public final class ParcelJob {

  /** Kinds of failure that may be over, or met on one machine only. */
  private static final Set<String> PASSING = Set.of("io", "memory", ParcelJob.STORAGE);

  private static final String STORAGE = "storage";

  /** As BatchRun keeps free. */
  private static final long FREE_BYTES = 32L << 20;

  /** Network shares tell late of a new file, unless its folder is listed. */
  private static final int LOOKS = 2;

  private static final long LOOK_MILLISECONDS = 300;

  /** Share of a worker's memory that its sides may use together. */
  private static final double SHARE = 0.8;

  /** Of this Java machine, which may have several parcels at once. */
  private static final Budget MEMORY =
      new Budget((long) (SHARE * Runtime.getRuntime().maxMemory()));

  private final Parcel parcel;
  private final Crew crew;
  private final Progress progress;
  private final String worker = worker();
  private final long began = System.nanoTime();
  private boolean begun;

  private ParcelJob(Parcel parcel, Crew crew, Progress progress) {
    this.parcel = parcel;
    this.crew = crew;
    this.progress = progress;
  }

  /**
   * Does a parcel.
   *
   * @param text of the parcel
   * @param last true if there is no attempt after this one
   * @param treatment reads a treatment file
   * @param explain what went wrong, for people
   * @return what {@link ClusterRun} is to be told
   * @throws TryAgainException if it failed in a way that may be over, and this is not the last
   *     attempt
   * @throws CancellationException if the progress was stopped
   */
  public static String run(
      String text,
      boolean last,
      Crew crew,
      Progress progress,
      Function<String, Treatment> treatment,
      BiFunction<Throwable, SideOrder, SideFailure> explain) {
    ParcelJob job = new ParcelJob(Parcel.of(text), crew, progress);
    SideFailure failure;
    Throwable trouble;
    try {
      return job.attempt(treatment).text();
    } catch (CancellationException e) {
      throw e;
    } catch (UnseenException e) {
      failure = new SideFailure(STORAGE, e.getMessage());
      trouble = e;
    } catch (InvalidPathException e) {
      failure =
          new SideFailure(
              "io",
              "worker "
                  + job.worker
                  + " cannot write the name of "
                  + job.parcel.place()
                  + "; start it with a UTF-8 locale, such as LC_ALL=C.UTF-8.");
      trouble = e;
    } catch (DiskRoom.TooLittleException e) {
      failure = new SideFailure("io", e.getMessage());
      trouble = e;
    } catch (IOException | RuntimeException | VirtualMachineError e) {
      failure = explain.apply(e, job.parcel.task(Treatment.defaults()).order());
      trouble = e;
    }
    if (!last && PASSING.contains(failure.kind())) {
      throw new TryAgainException(failure.sentence(), trouble);
    }
    return job.answer(null, null, List.of(), failure).text();
  }

  /** The worker does not see what the planning process saw. */
  private static final class UnseenException extends IOException {
    private static final long serialVersionUID = 1L;

    UnseenException(String message) {
      super(message);
    }
  }

  private Answer attempt(Function<String, Treatment> treatment) throws IOException {
    SideTask task = parcel.task(treatment.apply(parcel.treatment()));
    Path out = Path.of(parcel.out());
    requireSeen(out.resolve(parcel.mark()), "the output folder " + out);
    requireSeen(task.order().found().file(), task.order().found().file().toString());
    if (parcel.adopt()) {
      SideResult there = SideJob.adopt(task, parcel.sha256(), progress);
      if (there != null) {
        return answer(there, null, List.of(), null);
      }
    }
    SideJob.requireFree(task);
    begun = true;
    long memory = 0;
    long disk = 0;
    try (SideReader reader = SideFiles.open(task.order().found().file())) {
      memory = SideCost.memory(reader.format(), task.order().treatment(), crew.hands());
      disk =
          SideCost.bytes(reader.format(), reader.frames(), task.order().treatment(), task.page());
    }
    InBag bag = parcel.inBag();
    if (bag != null) {
      bag.check(progress);
    }
    new DiskRoom(out, FREE_BYTES).take(disk);
    take(memory);
    try {
      Files.createDirectories(task.outFolder());
      SideJob.Left left = SideJob.leave(task, crew, progress);
      return answer(left.result(), left.hidden(), left.files(), null);
    } finally {
      MEMORY.giveBack(memory);
    }
  }

  private static void take(long memory) {
    try {
      MEMORY.take(memory);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CancellationException("interrupted");
    }
  }

  private void requireSeen(Path file, String what) throws UnseenException {
    for (int i = 0; !Files.exists(file); i++) {
      if (i == LOOKS) {
        throw new UnseenException(
            what
                + ": worker "
                + worker
                + " does not see it; originals and results must lie on storage that every machine"
                + " has under the same path.");
      }
      look(file.getParent());
    }
  }

  private static void look(Path folder) {
    try (var entries = Files.newDirectoryStream(folder)) {
      entries.iterator().hasNext();
    } catch (IOException e) {
      // what is missing is told by the one who asked
    }
    try {
      Thread.sleep(LOOK_MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CancellationException("interrupted");
    }
  }

  private Answer answer(SideResult result, String hidden, List<String> files, SideFailure failure) {
    return new Answer(
        worker,
        begun,
        (System.nanoTime() - began) / 1e9,
        result == null ? null : Answer.Done.of(result),
        hidden,
        files,
        failure);
  }

  private static String worker() {
    try {
      return InetAddress.getLocalHost().getHostName();
    } catch (UnknownHostException e) {
      return "without a name";
    }
  }
}
