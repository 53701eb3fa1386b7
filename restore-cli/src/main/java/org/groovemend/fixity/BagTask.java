package org.groovemend.fixity;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.bag.BagFinding;
import org.groovemend.bag.BagValidator;
import org.groovemend.fixity.FixityFinding.Kind;

/**
 * Whether a bag is complete (RFC 8493, section 3); its checksums are tasks of their own.
 *
 * @param store the folder that is looked at
 * @param bag the folder of the bag
 */
record BagTask(Path store, Path bag) implements FixityTask {

  @Override
  public String key() {
    return store.relativize(bag) + "/bagit.txt";
  }

  @Override
  public List<FixityFinding> check(FixityReading reading) throws IOException {
    reading.begin();
    List<FixityFinding> findings = new ArrayList<>();
    for (BagFinding finding : BagValidator.complete(bag).findings()) {
      if (finding.kind().fault()) {
        findings.add(
            new FixityFinding(
                kind(finding.kind()),
                store.relativize(bag) + "/" + finding.file(),
                finding.what()));
      }
    }
    return findings;
  }

  private static Kind kind(BagFinding.Kind kind) {
    return switch (kind) {
      case MISSING -> Kind.MISSING;
      // in a bag, a payload file that is not listed is a fault
      case EXTRA, CHANGED -> Kind.CHANGED;
      default -> Kind.DAMAGED;
    };
  }
}
