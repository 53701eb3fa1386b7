package org.groovemend.bag;

import java.nio.file.Path;
import java.util.List;

/**
 * What was found in a bag.
 *
 * @param bag its folder
 * @param findings in the order in which they were found; all of them
 * @param payloadFiles files below data
 * @param payloadBytes their length together
 * @param checked whether the checksums were looked at
 */
public record BagReport(
    Path bag, List<BagFinding> findings, long payloadFiles, long payloadBytes, boolean checked) {

  public BagReport {
    findings = List.copyOf(findings);
  }

  /** Every file that is listed is there and every payload file is listed. */
  public boolean complete() {
    return findings.stream()
        .noneMatch(f -> f.kind().fault() && f.kind() != BagFinding.Kind.CHANGED);
  }

  /** Complete, and every checksum was looked at and holds. */
  public boolean valid() {
    return checked && findings.stream().noneMatch(f -> f.kind().fault());
  }
}
