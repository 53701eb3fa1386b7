package org.groovemend.audio.flac;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.Executor;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FlacWriterTest {

  private static final AudioFormat FORMAT = AudioFormat.pcm(96_000, 2, 24);

  @TempDir Path folder;

  private byte[] write(String name, long[][] words, Executor executor, int parallelism, int step)
      throws IOException {
    Path file = folder.resolve(name);
    int frames = words[0].length;
    try (FlacWriter writer = new FlacWriter(file, FORMAT, frames, executor, parallelism)) {
      for (int at = 0; at < frames; at += step) {
        writer.write(words, at, Math.min(step, frames - at));
      }
    }
    return Files.readAllBytes(file);
  }

  @Test
  void bytesDoNotDependOnThreadsOrOnTheCutOfTheInput() throws Exception {
    long[][] words = Signals.bursts(24, 2, 100_001, 1);
    byte[] alone = write("alone", words, null, 1, 100_001);
    ExecutorService pool = Executors.newFixedThreadPool(4);
    try {
      for (int parallelism : new int[] {1, 2, 8}) {
        assertThat(write("p" + parallelism, words, pool, parallelism, 777)).isEqualTo(alone);
      }
    } finally {
      pool.shutdown();
    }
    assertThat(FlacTestFiles.read(folder.resolve("p8"))).isDeepEqualTo(words);
  }

  @Test
  void executorThatNeverGetsToItDoesNotHoldUpTheWriter() throws Exception {
    long[][] words = Signals.tone(24, 2, 50_000, 1);
    byte[] alone = write("alone", words, null, 1, 5000);
    Deque<Runnable> late = new ArrayDeque<>();
    assertThat(write("late", words, late::add, 2, 5000)).isEqualTo(alone);
    late.forEach(Runnable::run);
  }

  @Test
  void samplesThatRepeatInAnotherOrderGiveOtherBytes() throws Exception {
    long[][] words = Signals.tone(24, 2, 5_000, 1);
    long[][] swapped = {words[1], words[0]};
    assertThat(write("a", words, null, 1, 5000)).isNotEqualTo(write("b", swapped, null, 1, 5000));
  }

  @Test
  void wrongCallsAreRefused() throws Exception {
    Path file = folder.resolve("x.flac");
    AudioFormat wide = AudioFormat.ieeeFloat(96_000, 2, 64);
    assertThatThrownBy(() -> new FlacWriter(file, wide, 1, null, 1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("32 bits");
    assertThatThrownBy(() -> new FlacWriter(file, FORMAT, 0, null, 1))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new FlacWriter(file, FORMAT, 1L << 36, null, 1))
        .isInstanceOf(IllegalArgumentException.class);
    assertThat(file).doesNotExist();
    try (FlacWriter writer = new FlacWriter(file, FORMAT, 10, null, 1)) {
      assertThatThrownBy(() -> writer.write(new long[2][11], 0, 11))
          .isInstanceOf(IllegalArgumentException.class);
      long[][] loud = {new long[10], new long[10]};
      loud[1][3] = 1 << 23;
      assertThatThrownBy(() -> writer.write(loud, 0, 10))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining("24 bits");
      writer.write(new long[2][10], 0, 10);
    }
    assertThatThrownBy(() -> new FlacWriter(file, FORMAT, 10, null, 1))
        .isInstanceOf(FileAlreadyExistsException.class);
  }

  @Test
  void fileClosedTooSoonIsAnErrorAndCannotBeRead() throws Exception {
    Path file = folder.resolve("x.flac");
    FlacWriter writer = new FlacWriter(file, FORMAT, 10_000, null, 1);
    writer.write(new long[2][9_000], 0, 9_000);
    assertThatThrownBy(writer::close)
        .isInstanceOf(IOException.class)
        .hasMessageContaining("9000 of the 10000");
    writer.close();
    assertThatThrownBy(() -> FlacTestFiles.read(file)).isInstanceOf(IOException.class);
  }

  @Test
  void frameThatDoesNotDecodeToItsSamplesIsNoticed() throws Exception {
    FrameEncoder encoder = new FrameEncoder(info());
    int[][] samples = block(1);
    encoder.encode(3, samples, 4096);
    encoder.verify(3, samples, 4096);

    samples[1][4095] ^= 1;
    assertThatThrownBy(() -> encoder.verify(3, samples, 4096))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("FLAC frame 3")
        .hasMessageContaining("other samples");
    samples[1][4095] ^= 1;
    encoder.bytes()[100] ^= 1;
    assertThatThrownBy(() -> encoder.verify(3, samples, 4096))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("did not stand the check");
  }

  @Test
  void encodingAFrameAllocatesNothing() throws Exception {
    FrameEncoder encoder = new FrameEncoder(info());
    int[][] samples = block(2);
    encoder.encode(0, samples, 4096);
    var threads = (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
    long id = Thread.currentThread().getId();
    threads.getThreadAllocatedBytes(id);
    long before = threads.getThreadAllocatedBytes(id);
    for (int i = 1; i < 50; i++) {
      encoder.encode(i, samples, 4096);
    }
    long allocated = threads.getThreadAllocatedBytes(id) - before;
    // the calls of the bean itself take a few bytes, a single array of a block would be 16 KiB
    assertThat(allocated).isLessThan(2000);
  }

  private static StreamInfo info() {
    return new StreamInfo(4096, 4096, 0, 0, 96_000, 2, 24, 0, new byte[16]);
  }

  private static int[][] block(int seed) {
    long[][] words = Signals.tone(24, 2, 4096, seed);
    int[][] samples = new int[2][4096];
    SampleBlock.narrow(words[0], 0, samples[0], 0, 4096, 24, 0);
    SampleBlock.narrow(words[1], 0, samples[1], 0, 4096, 24, 0);
    return samples;
  }

  @Test
  void silenceAndIncompressibleNoiseStayNearTheirBounds() throws Exception {
    // 25 blocks: a constant frame is 2 x 4 bytes and about 9 of header and checksum
    byte[] silence = write("silence", Signals.silence(2, 102_400), null, 1, 102_400);
    assertThat(silence.length).isLessThan(100 + 25 * 18);
    byte[] noise = write("noise", Signals.noise(24, 2, 102_400, 1), null, 1, 102_400);
    assertThat(noise.length).isBetween(102_400 * 6, 102_400 * 6 + 100 + 25 * 20);
  }
}
