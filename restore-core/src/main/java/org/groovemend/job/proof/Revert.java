package org.groovemend.job.proof;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.FileRebuilder;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.Reversal;
import org.groovemend.ledger.VerificationException;

/** Gives the original file back from the clean copy, the ledger and what was removed. */
public final class Revert {

  private Revert() {}

  /**
   * Rebuilds the original file; written only if it is proved to be the original, byte for byte.
   *
   * @param ledger the ledger file
   * @param given restored and removed files that do not lie beside the ledger; nulls are looked for
   *     there
   * @param out the file to write
   * @param replace true to overwrite {@code out}
   * @return facts of the original
   * @throws RequestRefusedException if {@code out} cannot be the name of a file
   * @throws VerificationException if a file is not the one the ledger speaks of
   */
  public static FileFacts run(Path ledger, LedgerFiles given, Path out, boolean replace)
      throws IOException, VerificationException {
    Path folder = out.toAbsolutePath().getParent();
    if (folder == null) {
      throw new RequestRefusedException(out + " is not the name of a file to write");
    }
    String name = FilePath.name(out.toAbsolutePath());
    LedgerFiles files = given.or(LedgerFiles.beside(Ledger.open(ledger)));
    try (SideReader restored = files.restored() == null ? null : SideFiles.open(files.restored());
        SideReader removed = files.removed() == null ? null : SideFiles.open(files.removed())) {
      if (restored == null) {
        throw new VerificationException(
            "The restored file is not beside the ledger; say where it is with --restored.",
            List.of());
      }
      try (OutputSet outputs =
          OutputSet.open(folder, List.of(name), replace, inputs(files, ledger))) {
        FileFacts facts;
        try (OutputStream stream =
            new BufferedOutputStream(Files.newOutputStream(outputs.temporary(name)), 1 << 16)) {
          facts = new Reversal(FileRebuilder::new).revert(ledger, restored, removed, stream);
        }
        outputs.commit();
        return facts;
      }
    }
  }

  private static List<Path> inputs(LedgerFiles files, Path ledger) {
    List<Path> inputs = new ArrayList<>(List.of(files.restored(), ledger));
    if (files.removed() != null) {
      inputs.add(files.removed());
    }
    return inputs;
  }
}
