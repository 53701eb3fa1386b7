package org.groovemend.chain;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.Repair;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.junit.jupiter.api.Test;

class SegmentCutterTest {

  /** Word of frame n is n, so a window tells where it was cut. */
  private static MemorySide counting(int frames) {
    long[][] words = new long[1][frames];
    for (int i = 0; i < frames; i++) {
      words[0][i] = i;
    }
    return new MemorySide(AudioFormat.pcm(48_000, 1, 24), words);
  }

  private static void check(int frames, long start, long first, int length, long end)
      throws IOException {
    RangeReader side = TreatedRanges.of(counting(frames), List.of());
    SegmentWindow w = SegmentCutter.cut(side, new Segmentation(10, 3, 4), start);
    assertThat(w.firstFrame()).isEqualTo(first);
    assertThat(w.length()).isEqualTo(length);
    assertThat(w.segmentStart()).isEqualTo(start);
    assertThat(w.segmentEnd()).isEqualTo(end);
    assertThat(w.sideFrames()).isEqualTo(frames);
    for (int i = 0; i < length; i++) {
      assertThat(w.samples()[0][i] * (1 << 23)).isEqualTo(first + i);
    }
  }

  @Test
  void windowsAreClippedToTheSide() throws IOException {
    check(100, 0, 0, 14, 10);
    check(100, 20, 17, 17, 30);
    check(100, 90, 87, 13, 100);
    check(32, 20, 17, 15, 30);
    check(32, 30, 27, 5, 32);
    check(1, 0, 0, 1, 1);
  }

  @Test
  void aSampleLooksAtTheMiddleOfEqualParts() throws IOException {
    long[][] words = new long[1][95];
    for (int at : new int[] {3, 14, 25, 47, 58, 69, 91}) {
      words[0][at] = 6_000_000;
    }
    MemorySide side = new MemorySide(AudioFormat.pcm(48_000, 1, 24), words);
    // two of ten segments: the middles of [0, 5) and [5, 10) are segments 2 and 7
    RepairSample two = SideChain.sample(reader(side), new ToyStages.Clipper(10, 2), 2);
    assertThat(two.frames()).isEqualTo(20);
    assertThat(two.repairs()).extracting(Repair::start).containsExactly(25L);
    RepairSample all = SideChain.sample(reader(side), new ToyStages.Clipper(10, 2), 50);
    assertThat(all.frames()).isEqualTo(95);
    assertThat(all.repairs())
        .extracting(Repair::start)
        .containsExactly(3L, 14L, 25L, 47L, 58L, 69L, 91L);
  }

  @Test
  void aGapAcrossABorderCountsOnceInASampleAsInTheWholeRun() throws IOException {
    long[][] words = new long[1][40];
    java.util.Arrays.fill(words[0], 8, 13, 6_000_000);
    words[0][25] = 6_000_000;
    MemorySide side = new MemorySide(AudioFormat.pcm(48_000, 1, 24), words);
    ToyStages.RunClipper stage = new ToyStages.RunClipper(10);
    List<Long> whole = new ArrayList<>();
    new SideChain(List.of(stage))
        .run(
            side,
            Crew.alone(),
            1,
            (id, repair) -> whole.add(repair.start()),
            (out, offset, count) -> {},
            Progress.SILENT);
    assertThat(whole).containsExactly(8L, 25L);
    assertThat(SideChain.sample(reader(side), stage, 4).repairs())
        .extracting(Repair::start)
        .containsExactlyElementsOf(whole);
  }

  /** Four parts, a repair in each: after the two looked at first there are enough. */
  @Test
  void aSampleEndsWithEnoughRepairsAlikeForAnyHands() throws IOException {
    long[][] words = new long[1][40];
    for (int at : new int[] {3, 14, 25, 36}) {
      words[0][at] = 6_000_000;
    }
    MemorySide side = new MemorySide(AudioFormat.pcm(48_000, 1, 24), words);
    ExecutorService pool = Executors.newFixedThreadPool(3);
    try {
      for (Crew crew : List.of(Crew.alone(), new Crew(pool, 4))) {
        RepairSample some =
            SideChain.sample(reader(side), new ToyStages.Clipper(10, 2), 4, 2, crew);
        assertThat(some.frames()).isEqualTo(20);
        assertThat(some.repairs()).extracting(Repair::start).containsExactly(3L, 25L);
        RepairSample all = SideChain.sample(reader(side), new ToyStages.Clipper(10, 2), 4, 3, crew);
        assertThat(all.frames()).isEqualTo(40);
        assertThat(all.repairs()).hasSize(4);
      }
    } finally {
      pool.shutdownNow();
    }
  }

  @Test
  void aSampleOfNothingIsEmpty() throws IOException {
    MemorySide side = new MemorySide(AudioFormat.pcm(48_000, 1, 24), new long[1][0]);
    RepairSample none = SideChain.sample(reader(side), new ToyStages.Clipper(10, 2), 5);
    assertThat(none.frames()).isZero();
    assertThat(none.repairs()).isEmpty();
  }

  private static RangeReader reader(MemorySide side) {
    return new SideChain(List.of()).reader(side);
  }
}
