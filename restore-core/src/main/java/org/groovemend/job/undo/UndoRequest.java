package org.groovemend.job.undo;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.FilePath;
import org.groovemend.ledger.LedgerFiles;

/**
 * Edits to be taken back, as a person asks for it.
 *
 * @param ledger of the copy to begin with
 * @param given its restored and removed files where they do not lie beside it
 * @param parents ledgers, or folders of such, that it descends from, where they are not found
 *     without help
 * @param decisions a file that says which edits; null if {@code choice} does
 * @param choice which edits; null if {@code decisions} says so
 * @param outFolder where the new copy goes; null for beside the ledger
 * @param name NAME of the new copy's files; null for one made of the ledger's
 * @param replace true to write over files of that name
 * @param toolVersion goes into the new ledger
 * @param now start of the job, for the new ledger
 */
public record UndoRequest(
    Path ledger,
    LedgerFiles given,
    List<Path> parents,
    Path decisions,
    EditChoice choice,
    Path outFolder,
    String name,
    boolean replace,
    String toolVersion,
    Instant now) {

  public UndoRequest {
    parents = List.copyOf(parents);
    if ((decisions == null) == (choice == null)) {
      throw new IllegalArgumentException("either decisions or a choice say which edits");
    }
  }

  Path folder() {
    Path folder = outFolder == null ? FilePath.folder(ledger) : outFolder;
    return folder.toAbsolutePath();
  }

  /** Files that are read and never written to. */
  List<Path> inputs(LedgerFiles files) {
    List<Path> inputs = new ArrayList<>(List.of(ledger));
    for (Path file : new Path[] {files.restored(), files.removed(), decisions}) {
      if (file != null) {
        inputs.add(file);
      }
    }
    return inputs;
  }
}
