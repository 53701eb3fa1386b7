package org.groovemend.stage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

class CrewTest {
  @Test
  void allTasksAreOverWhenOneHasFailed() {
    ExecutorService pool = Executors.newFixedThreadPool(2);
    try {
      AtomicInteger done = new AtomicInteger();
      Runnable slow =
          () -> {
            try {
              Thread.sleep(50);
            } catch (InterruptedException e) {
              Thread.currentThread().interrupt();
            }
            done.incrementAndGet();
          };
      Runnable failing =
          () -> {
            throw new IllegalStateException("broken");
          };
      Crew crew = new Crew(pool, 2);
      assertThatThrownBy(() -> crew.together(failing, slow, slow))
          .isInstanceOf(IllegalStateException.class)
          .hasMessage("broken");
      assertThat(done).hasValue(2);
      assertThatThrownBy(() -> crew.together(slow, failing, slow))
          .isInstanceOf(IllegalStateException.class);
      assertThat(done).hasValue(4);
      Runnable error =
          () -> {
            throw new OutOfMemoryError("none left");
          };
      assertThatThrownBy(() -> crew.together(error, slow)).isInstanceOf(OutOfMemoryError.class);
      assertThat(done).hasValue(5);
    } finally {
      pool.shutdownNow();
    }
  }

  @Test
  void aloneDoesThemInOrder() {
    StringBuilder order = new StringBuilder();
    Crew.alone().together(() -> order.append('a'), () -> order.append('b'));
    assertThat(order).hasToString("ab");
  }

  @Test
  void sharedTasksAreDoneOnceEachAndTheFirstFailureIsTold() {
    ExecutorService pool = Executors.newFixedThreadPool(2);
    try {
      Crew crew = new Crew(pool, 3);
      AtomicInteger[] done = new AtomicInteger[100];
      List<Runnable> tasks = new ArrayList<>();
      for (int i = 0; i < done.length; i++) {
        AtomicInteger mine = new AtomicInteger();
        done[i] = mine;
        tasks.add(mine::incrementAndGet);
      }
      crew.share(tasks);
      assertThat(done).allSatisfy(n -> assertThat(n).hasValue(1));
      tasks.set(
          50,
          () -> {
            throw new IllegalStateException("broken");
          });
      assertThatThrownBy(() -> crew.share(tasks)).hasMessage("broken");
      assertThat(done[99]).hasValue(2);
      assertThat(done[50]).hasValue(1);
    } finally {
      pool.shutdownNow();
    }
  }

  /** Else a long task beside would hold up what is shared. */
  @Test
  @Timeout(20)
  void sharingWaitsForNoHandThatIsBusyElsewhere() throws InterruptedException {
    ExecutorService pool = Executors.newFixedThreadPool(1);
    CountDownLatch held = new CountDownLatch(1);
    try {
      pool.execute(
          () -> {
            try {
              held.await();
            } catch (InterruptedException e) {
              Thread.currentThread().interrupt();
            }
          });
      AtomicInteger done = new AtomicInteger();
      List<Runnable> two = List.of(done::incrementAndGet, done::incrementAndGet);
      new Crew(pool, 2).share(two);
      assertThat(done).hasValue(2);
      held.countDown();
      pool.shutdown();
      assertThat(pool.awaitTermination(10, TimeUnit.SECONDS)).isTrue();
      assertThat(done).hasValue(2);
    } finally {
      held.countDown();
      pool.shutdownNow();
    }
  }
}
