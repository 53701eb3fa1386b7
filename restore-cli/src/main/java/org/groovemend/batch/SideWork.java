package org.groovemend.batch;

import java.io.IOException;
import org.groovemend.chain.Progress;
import org.groovemend.stage.Crew;

/** Does one side; see {@link SideJob#run}. */
@FunctionalInterface
interface SideWork {

  SideResult run(SideTask task, Crew crew, Progress progress) throws IOException;
}
