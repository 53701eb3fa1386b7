package org.groovemend.job.handover;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicLong;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.bag.BagReport;
import org.groovemend.bag.BagValidator;
import org.groovemend.chain.Progress;

/** Says whether a bag is complete and valid. Only reads. */
public final class CheckBag {

  private CheckBag() {}

  /**
   * Looks at a bag.
   *
   * @param checksums false to look only whether everything is there
   * @throws InputRejectedException if there is no such folder
   */
  public static BagReport run(Path bag, boolean checksums, Progress progress) throws IOException {
    if (!Files.isDirectory(bag)) {
      throw new InputRejectedException(
          bag, "", "there is no such folder", "name the folder that holds bagit.txt");
    }
    BagReport quick = BagValidator.complete(bag);
    if (!checksums) {
      return quick;
    }
    AtomicLong read = new AtomicLong();
    // text files come on top, so the last portion may reach past what was announced
    return BagValidator.validate(
        bag,
        n ->
            progress.at(
                "reading",
                Math.min(read.addAndGet(n), quick.payloadBytes()),
                Math.max(1, quick.payloadBytes())));
  }
}
