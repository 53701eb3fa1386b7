package org.groovemend.chain;

import java.io.IOException;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;

/** Says of every repair that the stages find whether it is to be had in what comes out. */
@FunctionalInterface
public interface RepairSelection {

  /** How much of a repair is taken away. */
  enum Share {
    /** All of it, as found. */
    WHOLE,
    /** Nothing: where it lies alone, the samples are those that went in. */
    NONE,
    /** All but where a repair of the same channel lies of which nothing is taken away. */
    WHERE_NONE_IS_LEFT_OUT
  }

  /** Called for each stage in order of start, on the thread that runs the chain. */
  Share share(StageId stage, Repair repair) throws IOException;
}
