package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.bag.BagFinding;
import org.groovemend.bag.BagValidator;
import org.groovemend.bag.ListedFile;

/**
 * Bags (RFC 8493) among the folders of a collection: whether they are complete is said when they
 * are found; a transfer is compared with the checksums that are listed of it when its turn comes,
 * before anything is made of it.
 */
public final class BagGuard {

  private final List<Path> payloads = new ArrayList<>();
  private final Map<Path, ListedFile> listed = new HashMap<>();

  /**
   * A bag was found; opens no payload file.
   *
   * @return what is wrong with it, a sentence each
   */
  List<String> add(Path bag) {
    List<String> troubles = new ArrayList<>();
    try {
      for (BagFinding finding : BagValidator.complete(bag).findings()) {
        if (finding.kind().fault()) {
          troubles.add("the bag " + bag + ": " + finding.what());
        }
      }
      for (ListedFile file : ListedFile.of(bag)) {
        listed.put(key(file.file()), file);
      }
      payloads.add(key(bag.resolve("data")));
    } catch (IOException e) {
      troubles.add("the bag " + bag + " cannot be looked at: " + e.getMessage());
    }
    return troubles;
  }

  private static Path key(Path file) {
    return file.toAbsolutePath().normalize();
  }

  /**
   * What the bag that a transfer lies in lists of it.
   *
   * @return null if it lies in none
   */
  public InBag of(FoundSide side) {
    Path file = key(side.file());
    ListedFile known = listed.get(file);
    return known != null || payloads.stream().anyMatch(file::startsWith)
        ? new InBag(side.file(), known)
        : null;
  }
}
