package org.groovemend.lineage;

import java.io.IOException;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.FilePath;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.Ledger;

/**
 * Where the ledger that another descends from lay when that other was written: a folder, seen from
 * its own. Only a hint: what is found there counts if its seal is the one that is named, and it is
 * only read.
 */
public final class ParentPlace {

  /** Name of the finding in a ledger that holds the hint. */
  public static final String FINDING = "parentPlace";

  private static final String FOLDER = "folder";
  private static final String UP = "..";
  private static final int LONGEST = 300;
  private static final int MOST_STEPS = 12;

  private ParentPlace() {}

  /**
   * The hint.
   *
   * @param child folder of the ledger that descends; exists
   * @param parent folder of the one that it descends from; exists
   * @return null if both are one folder, or no way leads from one to the other but by the root of
   *     the disk: such a way would name folders that are nobody else's business, and lead nowhere
   *     on another machine
   */
  public static Map<String, Object> between(Path child, Path parent) throws IOException {
    Path from = child.toRealPath();
    Path to = parent.toRealPath();
    boolean near =
        from.getNameCount() > 0
            && to.getNameCount() > 0
            && from.getRoot().equals(to.getRoot())
            && from.getName(0).equals(to.getName(0));
    if (from.equals(to) || !near) {
      return null;
    }
    List<String> steps = new ArrayList<>();
    from.relativize(to).forEach(step -> steps.add(step.toString()));
    String folder = String.join("/", steps);
    return plain(folder) ? Map.of(FOLDER, folder) : null;
  }

  /** The folder that a ledger hints at, whether or not it is there; null if it hints at none. */
  static Path of(Ledger ledger) {
    for (AnalysisRecord analysis : ledger.analyses()) {
      if (analysis.name().equals(FINDING)
          && analysis.result().get(FOLDER) instanceof String folder
          && plain(folder)) {
        return FilePath.folder(ledger.path()).resolve(folder);
      }
    }
    return null;
  }

  /** Some steps up, then names: nothing absolute, no drive, no share, nothing endless. */
  private static boolean plain(String folder) {
    String[] steps = folder.split("/", -1);
    if (folder.length() > LONGEST || steps.length > MOST_STEPS) {
      return false;
    }
    boolean down = false;
    for (String step : steps) {
      if (down && step.equals(UP) || !step.equals(UP) && !name(step)) {
        return false;
      }
      down |= !step.equals(UP);
    }
    return true;
  }

  private static boolean name(String step) {
    try {
      Path path = Path.of(step);
      return !step.isBlank()
          && !step.equals(".")
          && step.indexOf('\\') < 0
          && !path.isAbsolute()
          && path.getFileName() != null
          && path.getNameCount() == 1
          && FilePath.name(path).equals(step);
    } catch (InvalidPathException e) {
      return false;
    }
  }
}
