package org.groovemend.plays;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Supplier;
import org.groovemend.stage.Crew;

/**
 * Goes through all plays in segments that lie on a fixed grid, each with context: read in order on
 * the calling thread, worked on by the crew, finished in order.
 */
final class Segments {

  /** Frames of the transform that a segment's context is long on each side. */
  private static final int CONTEXT = 2;

  private static final int FRAMES = 16;

  private final PlaySet plays;
  private final int length;

  Segments(PlaySet plays) {
    this.plays = plays;
    length = FrameMix.length(plays.rate());
  }

  int segmentFrames() {
    return FRAMES * length;
  }

  int context() {
    return CONTEXT * length;
  }

  /** Frames of a window: a segment and its context. */
  int windowFrames() {
    return segmentFrames() + 2 * context();
  }

  long count() {
    return (plays.frames() + segmentFrames() - 1) / segmentFrames();
  }

  /** One worker's room. */
  abstract static class Worker {
    double[][][] x;
    long segment;

    /** First frame of the window: that of the segment less the context, perhaps negative. */
    long first;

    /** Works on {@code x}; on any thread. */
    abstract void work();

    /** Hands on what was found; on the calling thread, in order. */
    abstract void finish() throws IOException;
  }

  void run(Crew crew, Supplier<Worker> workers) throws IOException {
    Deque<Worker> idle = new ArrayDeque<>();
    for (int i = 0; i < crew.hands(); i++) {
      Worker one = workers.get();
      one.x = new double[plays.size()][plays.channels()][windowFrames()];
      idle.add(one);
    }
    Deque<Under> running = new ArrayDeque<>();
    try {
      for (long segment = 0; segment < count(); segment++) {
        if (idle.isEmpty()) {
          idle.add(finish(running.remove()));
        }
        Worker worker = idle.remove();
        fill(worker, segment);
        running.add(new Under(worker, CompletableFuture.runAsync(worker::work, crew.executor())));
      }
      while (!running.isEmpty()) {
        finish(running.remove());
      }
    } finally {
      running.forEach(under -> under.done.exceptionally(failed -> null).join());
    }
  }

  private record Under(Worker worker, CompletableFuture<Void> done) {}

  private static Worker finish(Under under) throws IOException {
    try {
      under.done.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      if (e.getCause() instanceof Error cause) {
        throw cause;
      }
      throw e;
    }
    under.worker.finish();
    return under.worker;
  }

  private void fill(Worker worker, long segment) throws IOException {
    worker.segment = segment;
    worker.first = segment * segmentFrames() - context();
    for (int p = 0; p < plays.size(); p++) {
      new PaddedSide(plays.heard(p), 0, Long.MAX_VALUE)
          .read(worker.first, windowFrames(), worker.x[p]);
    }
  }
}
