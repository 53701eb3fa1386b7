package org.groovemend.fixity;

import java.io.IOException;
import java.util.List;

/** One thing that vouches for files, or one file that is vouched for. */
interface FixityTask {

  /** Its name in the record: the same in every round over the same store. */
  String key();

  /**
   * Reads and compares.
   *
   * @return what is not as it should be; empty if all holds
   * @throws java.util.concurrent.CancellationException if the round is stopped
   */
  List<FixityFinding> check(FixityReading reading) throws IOException;
}
