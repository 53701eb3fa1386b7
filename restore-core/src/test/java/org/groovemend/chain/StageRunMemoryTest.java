package org.groovemend.chain;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Semaphore;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.Test;

/** A stage at work holds a stretch of the side that does not depend on how long the side is. */
class StageRunMemoryTest {

  private static final AudioFormat MONO = AudioFormat.pcm(96_000, 1, 24);
  private static final int SEGMENT = 10_000;
  private static final int CONTEXT = 2;
  private static final int BLOCK = 1 << 16;

  /**
   * A store keeps what lies dead until it is a quarter of its room, and its room at most doubles:
   * hence twice what must be held, segments under work with their context and the block that came
   * last.
   */
  private static long bound(int hands) {
    return 2L * ((hands + 2L) * SEGMENT + CONTEXT + 2L * BLOCK);
  }

  /** Most frames held at once and frames given on. */
  private record Held(long most, long out) {}

  private static Held run(StageRun<?, ?> stage, long frames, long[] out) throws IOException {
    double[][] block = new double[1][BLOCK];
    long most = 0;
    for (long at = 0; at < frames; at += BLOCK) {
      stage.accept(at, block, (int) Math.min(BLOCK, frames - at));
      most = Math.max(most, stage.input.end() - stage.input.base());
    }
    return new Held(most, out[0]);
  }

  private static Held smoothed(long frames, Crew crew) throws IOException {
    long[] out = {0};
    BlockSink sink = (first, samples, count) -> out[0] += count;
    return run(
        new SignalRun(
            new ToyStages.Smoother(SEGMENT),
            MONO,
            frames,
            crew,
            new Semaphore(crew.hands()),
            null,
            sink),
        frames,
        out);
  }

  private static Held clipped(long frames, Crew crew) throws IOException {
    long[] out = {0};
    BlockSink sink = (first, samples, count) -> out[0] += count;
    RepairSink none = (stage, repair) -> {};
    return run(
        new RepairRun(
            new ToyStages.Clipper(SEGMENT, CONTEXT),
            MONO,
            frames,
            crew,
            new Semaphore(crew.hands()),
            none,
            sink),
        frames,
        out);
  }

  @Test
  void twentyMillionFramesAreHeldByBoundedStretches() throws IOException {
    long frames = 20_000_000;
    ExecutorService pool = Executors.newFixedThreadPool(3);
    try {
      for (int hands : new int[] {1, 8}) {
        for (Held held :
            new Held[] {
              smoothed(frames, new Crew(pool, hands)), clipped(frames, new Crew(pool, hands))
            }) {
          assertThat(held.out()).isEqualTo(frames);
          assertThat(held.most()).isLessThanOrEqualTo(bound(hands));
        }
      }
    } finally {
      pool.shutdownNow();
    }
  }

  @Test
  void aStoreThatIsNeverToldToDiscardWouldExceedTheBound() {
    FrameStore store = new FrameStore(1);
    double[][] block = new double[1][BLOCK];
    for (int i = 0; i < 20; i++) {
      store.append(block, 0, BLOCK);
    }
    assertThat(store.end() - store.base()).isGreaterThan(bound(8));
  }
}
