package org.groovemend.chain;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.Semaphore;
import java.util.function.Supplier;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Crew;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;

/**
 * One stage at work on one side: collects input until a segment's window is complete, lets a worker
 * have it, and gives the results on in order.
 *
 * @param <W> worker of the stage
 * @param <R> result of one segment
 */
abstract class StageRun<W, R> implements BlockSink {

  private final Segmentation cut;
  private final Crew crew;
  private final Semaphore slots;
  private final Supplier<W> workers;
  private final ConcurrentLinkedDeque<W> idleWorkers = new ConcurrentLinkedDeque<>();
  private final Deque<Pending<R>> underWork = new ArrayDeque<>();
  private final int channels;
  private long nextSegment;

  final long sideFrames;
  final FrameStore input;
  final BlockSink output;

  /** A segment under work; its window is held by the work alone, so that it can be forgotten. */
  private record Pending<R>(long start, long end, CompletableFuture<R> result) {}

  StageRun(
      Segmentation cut,
      AudioFormat format,
      long sideFrames,
      Crew crew,
      Semaphore slots,
      Supplier<W> workers,
      BlockSink output) {
    this.cut = cut;
    this.sideFrames = sideFrames;
    this.crew = crew;
    this.slots = slots;
    this.workers = workers;
    this.output = output;
    this.channels = format.channels();
    this.input = new FrameStore(channels);
  }

  /** Does the work on one segment; called by any thread. */
  abstract R work(W worker, SegmentWindow window);

  /** Gives one segment's result on; called in order, on the thread that feeds the run. */
  abstract void deliver(long start, long end, R result) throws IOException;

  @Override
  public void accept(long firstFrame, double[][] samples, int count) throws IOException {
    input.append(samples, 0, count);
    while (nextSegment < sideFrames && input.end() >= windowEnd(nextSegment)) {
      while (underWork.size() >= crew.hands()) {
        deliverFirst();
      }
      start();
    }
    while (!underWork.isEmpty() && underWork.getFirst().result().isDone()) {
      deliverFirst();
    }
    if (input.end() == sideFrames) {
      while (!underWork.isEmpty()) {
        deliverFirst();
      }
    }
  }

  private long windowEnd(long segmentStart) {
    return Math.min(sideFrames, segmentStart + cut.segmentFrames() + cut.contextAfter());
  }

  private void start() {
    long segmentStart = nextSegment;
    long segmentEnd = Math.min(sideFrames, segmentStart + cut.segmentFrames());
    long first = Math.max(0, segmentStart - cut.contextBefore());
    int length = (int) (windowEnd(segmentStart) - first);
    // a window is the largest thing there is: no more of them than hands, over all stages
    slots.acquireUninterruptibly();
    double[][] samples = new double[channels][length];
    input.copy(first, length, samples, 0);
    SegmentWindow window =
        new SegmentWindow(samples, first, length, segmentStart, segmentEnd, sideFrames);
    CompletableFuture<R> result =
        CompletableFuture.supplyAsync(
            () -> {
              try {
                return work(window);
              } finally {
                slots.release();
              }
            },
            crew.executor());
    underWork.addLast(new Pending<>(segmentStart, segmentEnd, result));
    nextSegment = segmentEnd;
  }

  private R work(SegmentWindow window) {
    W worker = idleWorkers.pollFirst();
    if (worker == null) {
      worker = workers.get();
    }
    try {
      return work(worker, window);
    } finally {
      idleWorkers.addFirst(worker);
    }
  }

  private void deliverFirst() throws IOException {
    Pending<R> first = underWork.removeFirst();
    R result;
    try {
      result = first.result().join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException runtime) {
        throw runtime;
      }
      if (e.getCause() instanceof Error error) {
        throw error;
      }
      throw e;
    }
    deliver(first.start(), first.end(), result);
    input.discardBefore(Math.min(first.end(), nextSegment - cut.contextBefore()));
  }
}
