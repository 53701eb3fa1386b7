package org.groovemend.stage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

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
}
