package org.groovemend.job.restore;

import java.io.IOException;

/** Repairs in the order of a ledger. */
@FunctionalInterface
public interface LoggedRepairs {

  /** The next one, or null after the last. */
  LoggedRepair next() throws IOException;
}
