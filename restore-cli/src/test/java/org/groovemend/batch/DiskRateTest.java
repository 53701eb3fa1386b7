package org.groovemend.batch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class DiskRateTest {

  private final AtomicLong bytes = new AtomicLong(12_345);
  private final AtomicLong nanos = new AtomicLong(99);

  private DiskRate rate(double perSecond) {
    return new DiskRate(
        perSecond, bytes::get, nanos::get, millis -> nanos.addAndGet(millis * 1_000_000));
  }

  /** Work without a limit would take no time at all; the time is that of the bytes. */
  @Test
  void theTimeIsAtLeastThatOfTheBytes() {
    DiskRate rate = rate(1_000_000);
    Random random = new Random(5);
    long sum = 0;
    for (int i = 0; i < 1000; i++) {
      long n = random.nextInt(200_000);
      sum += n;
      bytes.addAndGet(n);
      while (rate.pause()) {
        // waits
      }
    }
    double seconds = (nanos.get() - 99) / 1e9;
    assertThat(seconds).isBetween(sum / 1e6 - 1e-6, sum / 1e6 + 1.0);
  }

  @Test
  void workThatIsSlowerByItselfNeverWaits() {
    DiskRate rate = rate(1_000_000);
    for (int i = 0; i < 100; i++) {
      nanos.addAndGet(1_000_000_000);
      bytes.addAndGet(900_000);
      assertThat(rate.pause()).isFalse();
    }
  }

  @Test
  void idleTimeIsSavedUpForASecondAtMost() {
    DiskRate rate = rate(1_000_000);
    nanos.addAndGet(3600L * 1_000_000_000);
    bytes.addAndGet(3_000_000);
    long before = nanos.get();
    while (rate.pause()) {
      // waits
    }
    assertThat((nanos.get() - before) / 1e9).isBetween(1.99, 2.3);
  }
}
