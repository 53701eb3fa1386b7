package org.groovemend.job.deliver;

import java.nio.file.Path;
import java.util.List;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.CopyLevel;
import org.groovemend.ledger.FileFacts;

/**
 * What was delivered.
 *
 * @param folder where it lies
 * @param record of all of it, in that folder
 * @param copies in the order of sides, then of the recipe
 * @param remarks what a person should know, one sentence each
 */
public record DeliverOutcome(Path folder, Path record, List<Copy> copies, List<String> remarks) {

  public DeliverOutcome {
    copies = List.copyOf(copies);
    remarks = List.copyOf(remarks);
  }

  /**
   * One file.
   *
   * @param file its identity and shape
   * @param kind what it is
   * @param level how loud it is
   * @param gainDb that it was given
   */
  public record Copy(FileFacts file, CopyKind kind, CopyLevel level, double gainDb) {}
}
