package org.groovemend.job.restore;

import java.nio.file.Path;
import java.util.List;
import org.groovemend.delivery.OutputSet;

/**
 * Results of a side that are complete and stored, but not in place: {@link OutputSet#takeUp} puts
 * them there.
 *
 * @param outcome what came of it; its paths are those the files are to have
 * @param folder where they are to appear
 * @param hidden name of the folder within, which holds them until then
 * @param files their names, in the order in which they are put in place
 */
public record LeftResults(RestoreOutcome outcome, Path folder, String hidden, List<String> files) {

  public LeftResults {
    files = List.copyOf(files);
  }

  /** Where the ledger lies until then. */
  public Path ledgerFile() {
    return folder.resolve(hidden).resolve(outcome.ledgerFile().getFileName());
  }
}
