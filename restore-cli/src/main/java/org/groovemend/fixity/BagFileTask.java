package org.groovemend.fixity;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.bag.ListedFile;
import org.groovemend.fixity.FixityFinding.Kind;

/**
 * A file of a bag.
 *
 * @param store the folder that is looked at
 * @param listed the file and what it must be
 */
record BagFileTask(Path store, ListedFile listed) implements FixityTask {

  @Override
  public String key() {
    return store.relativize(listed.bag()) + "/" + listed.path();
  }

  @Override
  public List<FixityFinding> check(FixityReading reading) throws IOException {
    reading.begin();
    if (!listed.present()) {
      // told with the bag itself
      return List.of();
    }
    return listed.check(reading::read).stream()
        .map(finding -> new FixityFinding(Kind.CHANGED, key(), finding.what()))
        .toList();
  }
}
