package org.groovemend.fixity;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.fixity.FixityFinding.Kind;
import org.groovemend.job.deliver.VerifyDelivery;
import org.groovemend.ledger.Check;

/**
 * A delivery: every copy followed back to its original.
 *
 * @param store the folder that is looked at
 * @param folder of the delivery
 */
record DeliveryTask(Path store, Path folder) implements FixityTask {

  @Override
  public String key() {
    return store.relativize(folder) + "/delivery.json";
  }

  @Override
  public List<FixityFinding> check(FixityReading reading) throws IOException {
    List<FixityFinding> findings = new ArrayList<>();
    reading.begin();
    for (Check check : VerifyDelivery.run(folder, null)) {
      if (check.outcome() == Check.Outcome.FAILS) {
        boolean missing = check.name().equals(VerifyDelivery.FILE) && check.found().isEmpty();
        boolean damaged = check.name().equals(VerifyDelivery.RECORD);
        findings.add(
            new FixityFinding(
                missing ? Kind.MISSING : damaged ? Kind.DAMAGED : Kind.CHANGED,
                key(),
                check.words()));
      } else if (check.outcome() == Check.Outcome.NOT_CHECKED
          && check.name().equals(VerifyDelivery.FILE)) {
        findings.add(new FixityFinding(Kind.UNEXPECTED, key(), check.words()));
      }
    }
    return findings;
  }
}
