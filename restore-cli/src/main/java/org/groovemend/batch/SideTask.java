package org.groovemend.batch;

import java.nio.file.Path;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.ledger.Sha256;
import org.groovemend.sealed.CanonicalJson;

/**
 * One side to be done, with all that decides about its results; nothing in it is of this machine
 * but the paths.
 *
 * @param order what is asked for
 * @param outFolder where the results go
 * @param name what they are called
 * @param replace whether results that are there may be replaced: they are those of an earlier run
 * @param page the page wished for
 * @param toolVersion goes into the ledger
 * @param now goes into the ledger
 */
public record SideTask(
    SideOrder order,
    Path outFolder,
    String name,
    boolean replace,
    ReportWish page,
    String toolVersion,
    Instant now) {

  RestoreRequest request() {
    return new RestoreRequest(
        order.found().file(),
        outFolder,
        order.treatment(),
        order.leadIn(),
        order.grooveOf(),
        replace,
        toolVersion,
        now,
        name);
  }

  /**
   * Digest of all that decides about the samples of a result besides the transfer itself and the
   * program.
   *
   * @param treatmentDigest of the treatment
   * @param groove the side whose groove is taken, or null
   */
  static String key(String treatmentDigest, SideOrder order, FoundSide groove) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("treatment", treatmentDigest);
    if (order.leadIn() != null) {
      all.put("leadIn", List.of(order.leadIn().fromSeconds(), order.leadIn().toSeconds()));
    }
    if (groove != null) {
      // its digest would have to be made anew in every run
      all.put("grooveOf", List.of(groove.place(), groove.bytes(), groove.modifiedNanos()));
    }
    return all.size() == 1 ? treatmentDigest : Sha256.of(CanonicalJson.bytes(all));
  }
}
