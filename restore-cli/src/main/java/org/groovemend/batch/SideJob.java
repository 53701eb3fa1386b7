package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.groovemend.chain.Progress;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.job.restore.LeftResults;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreOutcome;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerDamagedException;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.ledger.LedgerVersionException;
import org.groovemend.ledger.Sha256;
import org.groovemend.stage.Crew;

/**
 * Does one side: from the transfer to results in place. Knows no catalogue, no other side and
 * nothing of the machine, so it can run anywhere that sees both folders; doing it twice gives the
 * same results.
 */
public final class SideJob {

  private SideJob() {}

  /**
   * Restores a side.
   *
   * @throws IOException and others as {@link Restore#run} does; nothing half is left then
   */
  public static SideResult run(SideTask task, Crew crew, Progress progress) throws IOException {
    long began = System.nanoTime();
    RestoreOutcome outcome = Restore.run(task.request(), crew, progress, task.page());
    return done(Ledger.open(outcome.ledgerFile()), outcome.removedLevelDbfs(), began, progress);
  }

  /**
   * Results of a side that are complete, but not in place.
   *
   * @param hidden folder beside their place that holds them
   * @param files their names, in the order in which they are to be put in place
   */
  public record Left(SideResult result, String hidden, List<String> files) {}

  /**
   * The same but for the last step, so that a side may be done by several at once and put in place
   * by one, see {@link Restore#leave}.
   */
  public static Left leave(SideTask task, Crew crew, Progress progress) throws IOException {
    long began = System.nanoTime();
    LeftResults left = Restore.leave(task.request(), crew, progress, task.page());
    Ledger ledger = Ledger.open(left.ledgerFile());
    return new Left(
        done(ledger, left.outcome().removedLevelDbfs(), began, progress),
        left.hidden(),
        left.files());
  }

  private static SideResult done(Ledger ledger, double removedDbfs, long began, Progress progress)
      throws IOException {
    Map<String, Object> measures = SideMeasures.of(ledger);
    measures.put("removed_dbfs", removedDbfs);
    measures.putAll(RepairsAtOnsets.of(ledger, progress));
    return result(ledger, measures, (System.nanoTime() - began) / 1e9);
  }

  /**
   * Refuses a side whose names are taken by files that nobody vouches for.
   *
   * @throws OutputExistsException if there is one
   */
  public static void requireFree(SideTask task) throws OutputExistsException {
    LedgerNames names = LedgerNames.named(task.name(), Integer.SIZE);
    for (String name :
        List.of(
            names.restored(),
            names.ledger(),
            names.removed(),
            LedgerNames.named(task.name(), Long.SIZE).removed(),
            names.report())) {
      Path file = task.outFolder().resolve(name);
      if (!task.replace() && Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
        throw new OutputExistsException(file);
      }
    }
  }

  /**
   * Results that are there already and are exactly those the task would give: of the same transfer,
   * with the same treatment and version, as a catalogue or their own ledger says. The transfer is
   * read once if so.
   *
   * @param catalogued digest of the transfer that they were made of, if a catalogue knows that they
   *     were made by the same task; or null
   * @return null if there are none
   */
  public static SideResult adopt(SideTask task, String catalogued, Progress progress)
      throws IOException {
    SideOrder order = task.order();
    LedgerNames names = LedgerNames.named(task.name(), Integer.SIZE);
    Path file = task.outFolder().resolve(names.ledger());
    boolean told = order.leadIn() == null && order.grooveOf() == null;
    if (!Files.isRegularFile(file) || catalogued == null && !told) {
      // no ledger tells in which words a lead-in was stated
      return null;
    }
    Ledger ledger;
    try {
      ledger = Ledger.open(file);
    } catch (LedgerDamagedException | LedgerVersionException e) {
      return null;
    }
    Path restored = task.outFolder().resolve(names.restored());
    boolean same =
        catalogued != null
            || ledger.header().toolVersion().equals(task.toolVersion())
                && new TreatmentDigests().sameAs(order.treatment(), ledger);
    boolean whole =
        same
            && ledger.header().parent() == null
            && ledger.header().original().name().equals(fileName(order))
            && ledger.header().original().bytes() == order.found().bytes()
            && ledger.totals().restored().name().equals(names.restored())
            && hasLength(restored, ledger.totals().restored().bytes())
            && (ledger.totals().removed() == null
                || hasLength(
                    task.outFolder().resolve(ledger.totals().removed().name()),
                    ledger.totals().removed().bytes()))
            && (task.page() == ReportWish.NONE
                || Files.isRegularFile(task.outFolder().resolve(names.report())));
    if (!whole || !ledger.header().original().sha256().equals(hash(order.found(), progress))) {
      return null;
    }
    Map<String, Object> measures = SideMeasures.of(ledger);
    measures.putAll(RepairsAtOnsets.of(ledger, progress));
    return result(ledger, measures, Double.NaN);
  }

  /** Digest of a transfer, which stops when the progress does. */
  static String hash(FoundSide side, Progress progress) throws IOException {
    progress.at("comparing", 0, 1);
    String digest =
        Sha256.of(
            side.file(),
            () -> {
              progress.at("comparing", 0, 1);
              return true;
            });
    long modified = Files.getLastModifiedTime(side.file()).to(TimeUnit.NANOSECONDS);
    // somebody writes to it: it is no longer what was planned
    return modified == side.modifiedNanos() ? digest : "";
  }

  private static SideResult result(Ledger ledger, Map<String, Object> measures, double seconds)
      throws IOException {
    return new SideResult(
        ledger.header().original().sha256(),
        ledger.path().getFileName().toString(),
        ledger.seal(),
        Files.size(ledger.path()),
        ledger.totals().restored().bytes(),
        seconds,
        measures);
  }

  private static String fileName(SideOrder order) {
    return String.valueOf(order.found().file().getFileName());
  }

  private static boolean hasLength(Path file, long bytes) throws IOException {
    return Files.isRegularFile(file) && Files.size(file) == bytes;
  }
}
