package org.groovemend.resample;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;

/**
 * A side heard at other moments: same sound, other frames. Reading forwards is fast, any order
 * gives the same values. Memory is bounded by a few blocks of some 8000 input frames (more where
 * the rate falls to less than a tenth). Not for several threads at once.
 *
 * <p>A map that changes nothing gives the samples as they are.
 */
public final class Resampled implements RangeReader {
  private static final double ROUNDING = 1e-6;

  private final RangeReader side;
  private final PositionMap map;
  private final AudioFormat format;
  private final long frames;
  private final BandLimit limit;
  private final Kernel kernel = new Kernel();
  private final double[][] scratch;
  private BlockWork held;
  private long heldBlock = -1;

  /**
   * @param side what is heard
   * @param map where each frame of this one lies in it
   * @param outputHz rate that the frames are to have from now on
   */
  public Resampled(RangeReader side, PositionMap map, int outputHz) {
    this.side = side;
    this.map = map;
    AudioFormat from = side.format();
    this.format =
        from.coding() == SampleCoding.PCM
            ? AudioFormat.pcm(outputHz, from.channels(), from.containerBits())
            : AudioFormat.ieeeFloat(outputHz, from.channels(), from.containerBits());
    this.frames = frames(map, side.frames());
    this.limit = new BandLimit(map.steepest());
    this.scratch = new double[from.channels()][limit.size()];
  }

  /**
   * Frames of a side of so many, heard at the moments of a map. A last frame that lies a hair
   * before the end is there by the rounding of a factor only.
   */
  public static long frames(PositionMap map, long inputFrames) {
    long end = map.firstFrom(inputFrames);
    if (end > 0) {
      long[] whole = new long[1];
      double[] fraction = new double[1];
      map.positions(end - 1, 1, whole, fraction);
      if (whole[0] == inputFrames - 1 && fraction[0] > 1 - ROUNDING) {
        return end - 1;
      }
    }
    return end;
  }

  /** The side at another rate, its speed as it is. */
  public static Resampled atRate(RangeReader side, int outputHz) {
    return new Resampled(
        side, ConstantRatio.of(side.format().sampleRateHz(), outputHz, 1), outputHz);
  }

  /** Format of the side at the new rate; integer formats use all bits of their container. */
  @Override
  public AudioFormat format() {
    return format;
  }

  @Override
  public long frames() {
    return frames;
  }

  @Override
  public void read(long firstFrame, int count, double[][] into) throws IOException {
    if (firstFrame < 0 || count < 0 || firstFrame > frames - count) {
      throw new IllegalArgumentException(
          "frames " + firstFrame + " to " + (firstFrame + count) + " of " + frames);
    }
    if (map.identity()) {
      side.read(firstFrame, count, into);
      return;
    }
    if (held == null) {
      held = work();
    }
    long[] whole = new long[1];
    double[] fraction = new double[1];
    for (int done = 0; done < count; ) {
      map.positions(firstFrame + done, 1, whole, fraction);
      long block = whole[0] / limit.hop();
      if (block != heldBlock) {
        prepare(held, block);
        held.run();
        heldBlock = block;
      }
      int from = (int) (firstFrame + done - held.firstOutput());
      int n = Math.min(count - done, held.count() - from);
      for (int c = 0; c < into.length; c++) {
        System.arraycopy(held.output[c], from, into[c], done, n);
      }
      done += n;
    }
  }

  /** Gives the whole of it to a sink, in order, on the calling thread; the work is shared. */
  public void forEach(Crew crew, SampleSink sink) throws IOException {
    if (map.identity()) {
      copy(sink);
      return;
    }
    Deque<Under> running = new ArrayDeque<>();
    Deque<BlockWork> idle = new ArrayDeque<>();
    for (int i = 0; i < crew.hands(); i++) {
      idle.add(work());
    }
    long blocks = (side.frames() + limit.hop() - 1) / limit.hop();
    try {
      for (long block = 0; block < blocks; block++) {
        if (idle.isEmpty()) {
          idle.add(finish(running.remove(), sink));
        }
        BlockWork work = idle.remove();
        prepare(work, block);
        running.add(new Under(work, CompletableFuture.runAsync(work::run, crew.executor())));
      }
      while (!running.isEmpty()) {
        finish(running.remove(), sink);
      }
    } finally {
      // a failure leaves none at work behind it
      running.forEach(under -> under.done.exceptionally(failed -> null).join());
    }
  }

  /** A block under work, perhaps on another thread. */
  private record Under(BlockWork work, CompletableFuture<Void> done) {}

  private static BlockWork finish(Under under, SampleSink sink) throws IOException {
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
    if (under.work.count() > 0) {
      sink.accept(under.work.firstOutput(), under.work.output, under.work.count());
    }
    return under.work;
  }

  private void copy(SampleSink sink) throws IOException {
    for (long at = 0; at < frames; at += limit.size()) {
      int n = (int) Math.min(limit.size(), frames - at);
      side.read(at, n, scratch);
      sink.accept(at, scratch, n);
    }
  }

  private BlockWork work() {
    int most = (int) Math.ceil(limit.hop() / map.gentlest()) + 2;
    return new BlockWork(limit, kernel, format.channels(), most);
  }

  private void prepare(BlockWork work, long block) throws IOException {
    long input = block * limit.hop();
    long from = map.firstFrom(input);
    long to = Math.min(frames, map.firstFrom(input + limit.hop()));
    work.ask(map, input, from, (int) (to - from));
    fill(work.window, input - limit.before());
  }

  /** The window from an input frame on, silence outside the side. */
  private void fill(double[][] window, long first) throws IOException {
    int size = limit.size();
    int from = (int) Math.max(0, Math.min(size, -first));
    int to = (int) Math.max(from, Math.min(size, side.frames() - first));
    if (to > from) {
      side.read(first + from, to - from, scratch);
    }
    for (int c = 0; c < window.length; c++) {
      Arrays.fill(window[c], 0, from, 0);
      System.arraycopy(scratch[c], 0, window[c], from, to - from);
      Arrays.fill(window[c], to, size, 0);
    }
  }
}
