package org.groovemend.spark;

import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.apache.spark.FutureAction;
import org.apache.spark.SparkContext;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import scala.jdk.javaapi.CollectionConverters;
import scala.runtime.AbstractFunction0;
import scala.runtime.AbstractFunction2;
import scala.runtime.BoxedUnit;

/**
 * One Spark job over parcels, a task for each. What happens is put into a queue, since Spark tells
 * it on threads of its own, which must not wait for a disk.
 */
final class Round {

  /**
   * Something that happened.
   *
   * @param parcel which
   * @param answer what a task answered; null if it was begun
   */
  record Event(int parcel, String answer) {}

  /** Takes answers, on the thread of Spark's scheduler. */
  private static final class Handler extends AbstractFunction2<Object, String, BoxedUnit> {
    private final List<Integer> numbers;
    private final Queue<Event> events;

    Handler(List<Integer> numbers, Queue<Event> events) {
      this.numbers = numbers;
      this.events = events;
    }

    @Override
    public BoxedUnit apply(Object index, String answer) {
      events.add(new Event(numbers.get((Integer) index), answer));
      return BoxedUnit.UNIT;
    }
  }

  private final List<Integer> numbers;
  private final Queue<Event> events = new ConcurrentLinkedQueue<>();
  private final FutureAction<BoxedUnit> job;

  /**
   * Begins.
   *
   * @param numbers of the parcels, in the order of the tasks
   * @param parcels all there are
   * @param attempts that Spark makes
   */
  Round(JavaSparkContext java, List<Integer> numbers, List<String> parcels, int attempts) {
    this.numbers = List.copyOf(numbers);
    SparkContext spark = java.sc();
    JavaRDD<String> rdd =
        java.parallelize(numbers.stream().map(parcels::get).toList(), numbers.size());
    List<Object> tasks = new ArrayList<>();
    for (int i = 0; i < numbers.size(); i++) {
      tasks.add(i);
    }
    this.job =
        spark.submitJob(
            rdd.rdd(),
            new SideFunction(attempts),
            CollectionConverters.asScala(tasks).toSeq(),
            new Handler(this.numbers, events),
            new AbstractFunction0<BoxedUnit>() {
              @Override
              public BoxedUnit apply() {
                return BoxedUnit.UNIT;
              }
            });
  }

  /** A task of this round has begun, as Spark's listener tells. */
  void began(int task) {
    events.add(new Event(numbers.get(task), null));
  }

  /** What happened next; null if nothing has yet. */
  Event next() {
    return events.poll();
  }

  boolean isOver() {
    return job.isCompleted();
  }

  void cancel() {
    job.cancel();
  }

  /** Why it ended before its time; null if it did not. */
  Throwable trouble() {
    var end = job.value().get();
    return end.isFailure() ? end.failed().get() : null;
  }

  /** The parcel of a task. */
  int parcel(int task) {
    return numbers.get(task);
  }
}
