package org.groovemend.audio.flac;

import java.io.IOException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;

/** One block on its way through an executor. Reused once its bytes are written. */
final class EncodeTask {

  private final FrameEncoder encoder;
  private final int[][] samples;
  private long block;
  private int count;
  private FutureTask<Void> future;

  EncodeTask(StreamInfo shape, int blockSize) {
    encoder = new FrameEncoder(shape);
    samples = new int[2][shape.channels() == 2 ? blockSize : 0];
    samples[0] = new int[blockSize];
  }

  /** Where the samples of the block go. */
  int[][] samples() {
    return samples;
  }

  void prepare(long block, int count) {
    this.block = block;
    this.count = count;
    future =
        new FutureTask<>(
            () -> {
              encoder.encode(block, samples, count);
              return null;
            });
  }

  Runnable start() {
    return future;
  }

  /** Encodes the block if nobody has begun to, and waits until it is done. */
  void await() throws IOException {
    future.run();
    try {
      future.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("Encoding was interrupted.", e);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof IOException cause) {
        throw cause;
      }
      throw new IllegalStateException("encoding block " + block + " failed", e.getCause());
    }
  }

  long block() {
    return block;
  }

  int count() {
    return count;
  }

  byte[] bytes() {
    return encoder.bytes();
  }

  int length() {
    return encoder.length();
  }
}
