package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.bag.BagFinding;
import org.groovemend.bag.BagValidator;
import org.groovemend.bag.ListedFile;
import org.groovemend.chain.Progress;

/**
 * Bags (RFC 8493) among the folders of a collection: whether they are complete is said when they are
 * found; a transfer is compared with the checksums that are listed of it when its turn comes, before
 * anything is made of it.
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
   * Reads a transfer that lies in a bag and compares.
   *
   * @throws InputRejectedException if it is not the one that the bag lists
   */
  void check(FoundSide side, Progress progress) throws IOException {
    Path file = key(side.file());
    ListedFile known = listed.get(file);
    if (known != null) {
      List<BagFinding> findings = known.check(n -> progress.at("comparing with its bag", 0, 1));
      if (!findings.isEmpty()) {
        throw new InputRejectedException(
            side.file(),
            "",
            "it is not the file that its bag lists: " + findings.get(0).what(),
            "get the bag anew from where it came from");
      }
    } else if (payloads.stream().anyMatch(file::startsWith)) {
      throw new InputRejectedException(
          side.file(),
          "",
          "it lies in a bag, but no manifest of the bag lists it",
          "ask where it comes from, or take it out of the bag");
    }
  }
}
