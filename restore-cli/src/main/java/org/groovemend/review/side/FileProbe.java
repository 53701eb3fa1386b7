package org.groovemend.review.side;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.VerificationException;

/** Are all files there that are needed, and have they the shape that the ledger tells? */
final class FileProbe {

  private FileProbe() {}

  static void require(Ledger ledger, LedgerFiles files) throws IOException, VerificationException {
    FileFacts restored = ledger.totals().restored();
    if (files.restored() == null) {
      throw refuse(
          "The clean copy "
              + restored.name()
              + " is not beside the ledger; say where it is with --restored.");
    }
    require("clean copy", restored, files.restored(), "--restored");
    if (files.original() != null) {
      require("transfer", ledger.header().original(), files.original(), "--original");
    } else if (ledger.header().wholeSignal()) {
      FileFacts removed = ledger.totals().removed();
      if (files.removed() == null) {
        throw refuse(
            "Neither "
                + removed.name()
                + " nor the transfer "
                + ledger.header().original().name()
                + " is beside the ledger, and without one of them there is no before; say where it is with"
                + " --removed or --original.");
      }
      require("removed file", removed, files.removed(), "--removed");
    }
  }

  private static void require(String role, FileFacts facts, Path file, String option)
      throws IOException, VerificationException {
    try (SideReader side = SideFiles.open(file)) {
      String expected = shape(facts.format(), facts.frames(), facts.bytes());
      String found = shape(side.format(), side.frames(), Files.size(file));
      if (!expected.equals(found)) {
        throw refuse(
            file
                + " is not the "
                + role
                + " of this ledger: it has "
                + found
                + ", the ledger tells "
                + expected
                + "; give the right one with "
                + option
                + ".");
      }
    }
  }

  private static String shape(AudioFormat format, long frames, long bytes) {
    return format.sampleRateHz()
        + " Hz, "
        + format.channels()
        + (format.channels() == 1 ? " channel, " : " channels, ")
        + format.containerBits()
        + " bits, "
        + frames
        + " frames, "
        + bytes
        + " bytes";
  }

  private static VerificationException refuse(String sentence) {
    return new VerificationException(sentence, List.of());
  }
}
