package org.groovemend.job;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;

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
 */
public record RestoreRequest(
    Path side,
    Path outFolder,
    Treatment treatment,
    TimeRange leadIn,
    Path grooveOf,
    boolean replace,
    String toolVersion,
    Instant now) {

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

  /** Files that are read and never written to. */
  List<Path> inputs() {
    return grooveOf == null ? List.of(side) : List.of(side, grooveOf);
  }
}
