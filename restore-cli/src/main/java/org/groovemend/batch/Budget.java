package org.groovemend.batch;

/**
 * Room that sides under work share: memory, and free space of the disk that results go to. Who asks
 * waits until enough is free again; who is alone gets whatever he asks for, so that nobody waits
 * for ever.
 */
public final class Budget {

  private final long memory;
  private long memoryTaken;
  private int holders;

  public Budget(long memory) {
    this.memory = memory;
  }

  /** Waits for so much memory. */
  public synchronized void take(long bytes) throws InterruptedException {
    while (holders > 0 && memoryTaken + bytes > memory) {
      wait();
    }
    memoryTaken += bytes;
    holders++;
  }

  public synchronized void giveBack(long bytes) {
    memoryTaken -= bytes;
    holders--;
    notifyAll();
  }

  /** Waits until nobody else holds anything, and takes all of it. */
  synchronized long takeAll() throws InterruptedException {
    while (holders > 0) {
      wait();
    }
    memoryTaken += memory;
    holders++;
    return memory;
  }
}
