package org.groovemend.chain;

import java.io.IOException;
import org.groovemend.stage.LeftAlone;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;

/** Takes the repairs of a stage in order of start. */
@FunctionalInterface
public interface RepairSink {
  void accept(StageId stage, Repair repair) throws IOException;

  /** Takes a place that a stage left as it is because it is too long. */
  default void leftAlone(StageId stage, LeftAlone place) throws IOException {}
}
