package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.chain.MemorySide;
import org.junit.jupiter.api.Test;

class ForwardWordsTest {

  /** Word of frame n is n in the first channel and -n in the second. */
  private static MemorySide counting(int frames) {
    long[][] words = new long[2][frames];
    for (int i = 0; i < frames; i++) {
      words[0][i] = i;
      words[1][i] = -i;
    }
    return new MemorySide(AudioFormat.pcm(48_000, 2, 24), words);
  }

  @Test
  void keptFramesStayAtTheirIndexWhateverTheSteps() throws IOException {
    int frames = 1_000_000;
    ForwardWords window = new ForwardWords(counting(frames));
    Random random = new Random(1);
    long kept = 0;
    int most = 0;
    while (window.end() < frames) {
      int count = (int) Math.min(frames - window.end(), 1 + random.nextInt(70_000));
      kept = Math.max(kept, window.end() - random.nextInt(120_000));
      window.advance(count, kept);
      most = Math.max(most, window.words()[0].length);
      for (long frame = kept; frame < window.end(); frame += 1 + random.nextInt(500)) {
        assertThat(window.words()[0][window.index(frame)]).isEqualTo(frame);
        assertThat(window.words()[1][window.index(frame)]).isEqualTo(-frame);
      }
      assertThat(window.words()[0][window.index(window.end() - 1)]).isEqualTo(window.end() - 1);
    }
    assertThat(window.end()).isEqualTo(frames);
    // at most 190,000 frames were needed at once
    assertThat(most).isLessThan(400_000);
  }

  @Test
  void whatIsNeverForgottenGrows() throws IOException {
    ForwardWords window = new ForwardWords(counting(1_000_000));
    for (int i = 0; i < 10; i++) {
      window.advance(100_000, 0);
    }
    assertThat(window.words()[0]).hasSizeGreaterThanOrEqualTo(1_000_000);
    assertThat(window.words()[0][window.index(123_456)]).isEqualTo(123_456);
  }
}
