package org.groovemend.job.restore;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.groovemend.job.side.TimeRange;
import org.groovemend.ledger.LedgerNames;

/**
 * What a person asks for.
 *
 * @param side the transfer
 * @param outFolder where the results go; made if missing
 * @param treatment all settings
 * @param leadIn groove-only stretch as a person states it, or null to let it be found
 * @param grooveOf another transfer whose bare groove is taken for the noise of this one, or null
 * @param replace true to overwrite results that are there already
 * @param toolVersion goes into the ledger
 * @param now start of the job, for the ledger
 * @param name what the results are called instead of the transfer's own name, or null
 */
public record RestoreRequest(
    Path side,
    Path outFolder,
    Treatment treatment,
    TimeRange leadIn,
    Path grooveOf,
    boolean replace,
    String toolVersion,
    Instant now,
    String name) {

  /** With the transfer's own name. */
  public RestoreRequest(
      Path side,
      Path outFolder,
      Treatment treatment,
      TimeRange leadIn,
      Path grooveOf,
      boolean replace,
      String toolVersion,
      Instant now) {
    this(side, outFolder, treatment, leadIn, grooveOf, replace, toolVersion, now, null);
  }

  /** With the side's own groove. */
  public RestoreRequest(
      Path side,
      Path outFolder,
      Treatment treatment,
      TimeRange leadIn,
      boolean replace,
      String toolVersion,
      Instant now) {
    this(side, outFolder, treatment, leadIn, null, replace, toolVersion, now);
  }

  /** Names of the results of a transfer with words of so many bits. */
  LedgerNames names(int containerBits) {
    return name == null
        ? LedgerNames.of(side, containerBits)
        : LedgerNames.named(name, containerBits);
  }

  /** Files that are read and never written to. */
  List<Path> inputs() {
    return grooveOf == null ? List.of(side) : List.of(side, grooveOf);
  }
}
