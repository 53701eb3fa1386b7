package org.groovemend.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.junit.jupiter.api.Test;

class SplitWordsTest {

  private static final AudioFormat WIDE = AudioFormat.ieeeFloat(96_000, 2, 64);
  private static final int FRAMES = 40_000;

  private static ArraySide wide() {
    Random random = new Random(7);
    long[][] words = new long[2][FRAMES];
    for (long[] channel : words) {
      for (int i = 0; i < FRAMES; i++) {
        channel[i] = random.nextLong();
      }
      channel[0] = Long.MIN_VALUE;
      channel[1] = -1;
      channel[2] = 0x7ff0_0000_0000_0001L; // a signalling NaN
      channel[3] = 0x0000_0000_8000_0000L;
    }
    return new ArraySide(Path.of("wide"), WIDE, words);
  }

  @Test
  void aWordBecomesItsUpperAndThenItsLowerHalf() throws IOException {
    WordSource halves = SplitWords.halves(wide());
    assertThat(halves.format()).isEqualTo(AudioFormat.pcm(96_000, 2, 32));
    assertThat(halves.frames()).isEqualTo(2L * FRAMES);
    long[][] read = new long[2][8];
    halves.readWords(0, 8, read, 0);
    assertThat(read[1])
        .containsExactly(Integer.MIN_VALUE, 0, -1, -1, 0x7ff0_0000, 1, 0, Integer.MIN_VALUE);
  }

  @Test
  void halvesJoinedAreTheWordsWhereverReadingBegins() throws IOException {
    ArraySide wide = wide();
    WordSource joined = SplitWords.joined(SplitWords.halves(wide));
    assertThat(joined.frames()).isEqualTo(FRAMES);
    assertThat(joined.format()).isEqualTo(WIDE);
    for (int first : new int[] {0, 1, 8191, 8192, 12_345}) {
      int count = FRAMES - first;
      long[][] read = new long[2][count + 3];
      joined.readWords(first, count, read, 3);
      for (int c = 0; c < 2; c++) {
        for (int i = 0; i < count; i++) {
          assertThat(read[c][3 + i]).isEqualTo(wide.words()[c][first + i]);
        }
      }
    }
  }

  @Test
  void halvesReadFromAnOddPlaceAreTheSame() throws IOException {
    WordSource halves = SplitWords.halves(wide());
    int frames = 2 * FRAMES;
    long[][] all = new long[2][frames];
    halves.readWords(0, frames, all, 0);
    long[][] odd = new long[2][frames];
    halves.readWords(1, frames - 2, odd, 1);
    for (int c = 0; c < 2; c++) {
      odd[c][0] = all[c][0];
      odd[c][frames - 1] = all[c][frames - 1];
    }
    assertThat(odd).isDeepEqualTo(all);
  }

  @Test
  void whatHasNoPairsIsRefused() {
    AudioFormat pcm = AudioFormat.pcm(48_000, 1, 32);
    assertThatThrownBy(() -> SplitWords.joined(new ArraySide(Path.of("odd"), pcm, new long[1][3])))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("3 frames");
    assertThatThrownBy(
            () -> SplitWords.halves(new ArraySide(Path.of("narrow"), pcm, new long[1][2])))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
