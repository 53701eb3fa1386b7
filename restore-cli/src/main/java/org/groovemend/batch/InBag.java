package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.bag.BagFinding;
import org.groovemend.bag.ListedFile;
import org.groovemend.chain.Progress;

/**
 * A transfer that lies in a bag.
 *
 * @param file the transfer
 * @param listed what the bag's manifests list of it; null if they do not list it
 */
public record InBag(Path file, ListedFile listed) {

  /**
   * Reads the transfer and compares.
   *
   * @throws InputRejectedException if it is not the one that the bag lists, or is not listed
   */
  public void check(Progress progress) throws IOException {
    if (listed == null) {
      throw new InputRejectedException(
          file,
          "",
          "it lies in a bag, but no manifest of the bag lists it",
          "ask where it comes from, or take it out of the bag");
    }
    List<BagFinding> findings = listed.check(n -> progress.at("comparing with its bag", 0, 1));
    if (!findings.isEmpty()) {
      throw new InputRejectedException(
          file,
          "",
          "it is not the file that its bag lists: " + findings.get(0).what(),
          "get the bag anew from where it came from");
    }
  }
}
