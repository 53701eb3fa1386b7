package org.groovemend.job.side;

import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.report.EditLine;
import org.groovemend.report.Fact;
import org.groovemend.signing.Fingerprint;

/** Lines of a page for what stands in a ledger. */
public final class LedgerLines {

  private LedgerLines() {}

  /** Name, form and digests of a file, a line each. */
  public static List<Fact> file(String role, FileFacts file) {
    AudioFormat f = file.format();
    return List.of(
        new Fact(
            role,
            file.name(),
            "",
            String.format(
                Locale.ROOT,
                "%s, %d Hz, %d channel%s, %d-bit %s, %.3f s.",
                file.container(),
                f.sampleRateHz(),
                f.channels(),
                f.channels() == 1 ? "" : "s",
                f.containerBits(),
                f.coding() == SampleCoding.PCM ? "integers" : "floats",
                f.seconds(file.frames()))),
        new Fact(role + ", SHA-256 of the file", "", "", file.sha256()),
        new Fact(role + ", SHA-256 of the samples", "", "", file.samplesSha256()));
  }

  /**
   * What goes on the sleeve.
   *
   * @param seal of the ledger, 64 hexadecimal digits
   */
  public static Fact fingerprint(String seal) {
    return new Fact(
        "Fingerprint",
        Fingerprint.of(seal).text(),
        "",
        "Of the ledger, which holds the digests of all files. Write it on the sleeve: verify compares the two later.");
  }

  /** An edit as a line of a table. */
  public static EditLine edit(LedgerEdit edit) {
    return new EditLine(
        edit.number(),
        edit.stage(),
        edit.channel(),
        edit.start(),
        edit.end(),
        edit.statistic(),
        edit.threshold(),
        edit.method(),
        edit.uncertaintyDbfs());
  }
}
