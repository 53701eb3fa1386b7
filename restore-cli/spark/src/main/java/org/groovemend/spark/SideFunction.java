package org.groovemend.spark;

import java.io.Serializable;
import org.apache.spark.TaskContext;
import org.groovemend.cli.ClusterBatch;
import scala.collection.Iterator;
import scala.runtime.AbstractFunction1;

/** What a task does: the one parcel of its partition. */
final class SideFunction extends AbstractFunction1<Iterator<String>, String>
    implements Serializable {

  private static final long serialVersionUID = 1L;

  private final int attempts;

  /**
   * @param attempts that Spark makes before it gives up
   */
  SideFunction(int attempts) {
    this.attempts = attempts;
  }

  @Override
  public String apply(Iterator<String> parcels) {
    TaskContext task = TaskContext.get();
    boolean last = task.attemptNumber() >= attempts - 1;
    return ClusterBatch.side(parcels.next(), last, task.cpus(), task::isInterrupted);
  }
}
