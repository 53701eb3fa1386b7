package org.groovemend.spark;

import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.apache.spark.scheduler.SparkListener;
import org.apache.spark.scheduler.SparkListenerExecutorAdded;
import org.apache.spark.scheduler.SparkListenerExecutorRemoved;
import org.apache.spark.scheduler.SparkListenerTaskEnd;
import org.apache.spark.scheduler.SparkListenerTaskStart;

/** Hears from Spark which tasks begin and which workers come and go. */
final class Watcher extends SparkListener {

  private final AtomicReference<Round> round = new AtomicReference<>();
  private final AtomicInteger firstStage = new AtomicInteger(-1);
  private final AtomicInteger running = new AtomicInteger();
  private final Queue<String> notes = new ConcurrentLinkedQueue<>();

  /** Each round is one job of one stage; stages count from 0. */
  void follow(Round now, int stage) {
    round.set(now);
    firstStage.set(stage);
  }

  @Override
  public void onTaskStart(SparkListenerTaskStart start) {
    running.incrementAndGet();
    Round now = round.get();
    if (now != null && start.stageId() == firstStage.get()) {
      now.began(start.taskInfo().index());
    }
  }

  @Override
  public void onTaskEnd(SparkListenerTaskEnd end) {
    running.decrementAndGet();
  }

  @Override
  public void onExecutorAdded(SparkListenerExecutorAdded added) {
    notes.add(
        "worker "
            + added.executorId()
            + " on "
            + added.executorInfo().executorHost()
            + ", "
            + added.executorInfo().totalCores()
            + " processors");
  }

  @Override
  public void onExecutorRemoved(SparkListenerExecutorRemoved removed) {
    notes.add("worker " + removed.executorId() + " is gone: " + removed.reason());
  }

  /** Tasks under work. */
  int running() {
    return running.get();
  }

  /** A line for the log; null if there is none. */
  String note() {
    return notes.poll();
  }
}
