package org.groovemend.job;

import java.io.IOException;

/** Repairs in the order of a ledger. */
@FunctionalInterface
interface LoggedRepairs {

  /** The next one, or null after the last. */
  LoggedRepair next() throws IOException;
}
