package org.groovemend.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.Test;

class LevelTrackTest {

  private static final int RATE = 8000;
  private static final AudioFormat STEREO = AudioFormat.pcm(RATE, 2, 24);

  /** A tone of 1 kHz on both channels: the left with an offset, the right silent at first. */
  private static double[][] sound(int frames) {
    double[][] x = new double[2][frames];
    for (int i = 0; i < frames; i++) {
      double tone = Math.sin(2 * Math.PI * 1000 * i / RATE);
      x[0][i] = 0.25 + 0.1 * tone;
      x[1][i] = i < frames / 2 ? 0 : 0.4 * tone;
    }
    return x;
  }

  private static LevelTrack track(double[][] x, int block) {
    LevelTrack track = new LevelTrack(STEREO, x[0].length);
    for (int at = 0; at < x[0].length; at += block) {
      int n = Math.min(block, x[0].length - at);
      double[][] part = new double[2][n];
      System.arraycopy(x[0], at, part[0], 0, n);
      System.arraycopy(x[1], at, part[1], 0, n);
      track.accept(part, n);
    }
    return track;
  }

  @Test
  void slotHoldsTheMeanSquareOfBothChannelsWithoutTheOffset() {
    LevelTrack track = track(sound(4 * RATE), 4 * RATE);
    assertThat(track.slotFrames()).isEqualTo(800);
    assertThat(track.slots()).isEqualTo(40);
    // half of the square of the amplitude; the filter takes 0.0004 dB at 1 kHz
    assertThat(track.meanSquare(10)).isCloseTo((0.005 + 0) / 2, within(1e-6));
    assertThat(track.meanSquare(30)).isCloseTo((0.005 + 0.08) / 2, within(1e-5));
    assertThat(track.meanSquare(10, 30))
        .isCloseTo((track.meanSquare(10, 20) + track.meanSquare(20, 30)) / 2, within(1e-15));
    assertThat(track.median(RATE, 2 * RATE)).isCloseTo(0.0025, within(1e-6));
    assertThat(track.median(10, 20)).isNaN();
  }

  @Test
  void cuttingIntoBlocksChangesNothing() {
    double[][] x = sound(4 * RATE + 123);
    LevelTrack one = track(x, x[0].length);
    LevelTrack other = track(x, 777);
    assertThat(other.slots()).isEqualTo(41);
    for (int i = 0; i < one.slots(); i++) {
      assertThat(other.meanSquare(i)).isEqualTo(one.meanSquare(i));
    }
  }

  @Test
  void quietestRunHoldsNoDigitalSilence() {
    Random random = new Random(1);
    double[][] x = new double[2][20 * RATE];
    for (int i = 0; i < x[0].length; i++) {
      double time = i / (double) RATE;
      double level = time < 2 ? 0 : time >= 10 && time < 12 ? 0.001 : 0.1;
      x[0][i] = level * random.nextGaussian();
      x[1][i] = level * random.nextGaussian();
    }
    LevelTrack track = track(x, 1000);
    assertThat(track.silent(3)).isTrue();
    assertThat(track.silent(30)).isFalse();
    // the filter still swings at the very beginning of the quiet part
    assertThat(track.quietest(15)).isBetween(100, 105);
    assertThat(track.quietest(190)).isEqualTo(-1);
  }

  @Test
  void longSidesHaveLongerSlotsNotMore() {
    LevelTrack track = new LevelTrack(STEREO, 24L * 3600 * RATE);
    assertThat(track.slots()).isBetween(LevelTrack.MOST_SLOTS / 2, LevelTrack.MOST_SLOTS);
    assertThat(track.slotOf(24L * 3600 * RATE - 1)).isEqualTo(track.slots() - 1);
  }
}
