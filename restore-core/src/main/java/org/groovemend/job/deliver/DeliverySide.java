package org.groovemend.job.deliver;

import java.nio.file.Path;
import java.util.List;
import org.groovemend.job.speed.SpeedRecord;
import org.groovemend.ledger.FileFacts;
import org.groovemend.playback.CurveParameters;

/**
 * A side of a delivery once it is restored, or its restoration has been taken over.
 *
 * @param asked what was asked
 * @param base NAME of its files
 * @param original the transfer
 * @param ledger of the restoration, null if no copy needs one
 * @param ledgerSeal of that ledger, or null
 * @param clean the clean copy, or null
 * @param cleanCopy where it lies, or null
 * @param stages that ran, in order
 * @param curve known curve, or null
 * @param bands that copies may be cut to, in order; empty if none was asked for
 * @param remarks of restoration and bands
 */
record DeliverySide(
    Recipe.Side asked,
    String base,
    FileFacts original,
    SpeedRecord.Identity ledger,
    String ledgerSeal,
    SpeedRecord.Identity clean,
    Path cleanCopy,
    List<String> stages,
    CurveParameters curve,
    List<CopyBand> bands,
    List<String> remarks) {

  /** True if the walls were joined: both channels of the clean copy hold the same. */
  boolean joined() {
    return stages.contains("mono");
  }
}
