package org.groovemend.job;

import java.nio.file.Path;
import java.time.Instant;

/**
 * What a person asks for.
 *
 * @param side the transfer
 * @param outFolder where the results go; made if missing
 * @param treatment all settings
 * @param leadIn groove-only stretch as a person states it, or null to let it be found
 * @param replace true to overwrite results that are there already
 * @param toolVersion goes into the ledger
 * @param now start of the job, for the ledger
 */
public record RestoreRequest(
    Path side,
    Path outFolder,
    Treatment treatment,
    TimeRange leadIn,
    boolean replace,
    String toolVersion,
    Instant now) {}
