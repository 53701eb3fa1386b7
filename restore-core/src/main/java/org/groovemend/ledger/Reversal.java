package org.groovemend.ledger;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.WordSource;

/**
 * Writes the original file again, byte for byte, from ledger, restored file and, where a stage
 * could change any sample, removed file. Nothing is computed but copies and additions of integers.
 */
public final class Reversal {

  private static final int BUFFER_BYTES = 1 << 16;

  private final RebuilderFactory rebuilders;

  public Reversal(RebuilderFactory rebuilders) {
    this.rebuilders = rebuilders;
  }

  /**
   * Rebuilds the original file.
   *
   * @param ledger the ledger file; checked as a whole first
   * @param restored the restored file's words
   * @param removedOrNull the removed file's words as that file holds them, pairs of halves for
   *     64-bit sides; null or unused if only repairs ran
   * @param out takes the file's bytes; flushed, not closed. Worth keeping only if this method
   *     returns
   * @return the facts of the file written
   * @throws VerificationException if restored or removed are not those of the ledger, and then
   *     nothing has been written; or if what was written is not the original
   */
  public FileFacts revert(
      Path ledger, WordSource restored, WordSource removedOrNull, OutputStream out)
      throws IOException, VerificationException {
    Ledger checked = Ledger.open(ledger);
    requireSides(checked, restored, removedOrNull);
    CountingDigestStream written = rebuild(checked, restored, removedOrNull, out);
    FileFacts original = checked.header().original();
    Mismatch mismatch = compare(original, written.bytes(), written.hex());
    if (mismatch != null) {
      throw new VerificationException(
          "The file that was rebuilt is not the original and must not be kept.", List.of(mismatch));
    }
    return original;
  }

  private static void requireSides(Ledger ledger, WordSource restored, WordSource removed)
      throws IOException, VerificationException {
    LedgerTotals totals = ledger.totals();
    List<Mismatch> mismatches = new ArrayList<>();
    add(
        mismatches,
        SideDigests.samples(
            "restored file " + totals.restored().name(), totals.restored(), restored));
    if (totals.removed() != null) {
      String place = "removed file " + totals.removed().name();
      add(
          mismatches,
          removed == null
              ? new Mismatch(place, "the file, as a stage could change any sample", "none")
              : SideDigests.samples(place, totals.removed(), removed));
    }
    if (!mismatches.isEmpty()) {
      throw new VerificationException(
          "The original cannot be rebuilt from these files: take those that were written together with the ledger,"
              + " unaltered.",
          mismatches);
    }
  }

  private static void add(List<Mismatch> mismatches, Mismatch found) {
    if (found != null) {
      mismatches.add(found);
    }
  }

  /** Rebuilds from sides that are known to be right. */
  CountingDigestStream rebuild(
      Ledger ledger, WordSource restored, WordSource removed, OutputStream out) throws IOException {
    CountingDigestStream written = new CountingDigestStream(out);
    OutputStream buffered = new BufferedOutputStream(written, BUFFER_BYTES);
    try (OriginalWords words = OriginalWords.of(ledger, restored, removed)) {
      ledger.describeOriginal(rebuilders.open(words, buffered));
    }
    buffered.flush();
    return written;
  }

  /** Null if a file of this length and digest is the one of the facts. */
  static Mismatch compare(FileFacts facts, long bytes, String sha256) {
    if (bytes == facts.bytes() && sha256.equals(facts.sha256())) {
      return null;
    }
    return new Mismatch(
        facts.name(),
        facts.bytes() + " bytes of SHA-256 " + facts.sha256(),
        bytes + " bytes of SHA-256 " + sha256);
  }
}
