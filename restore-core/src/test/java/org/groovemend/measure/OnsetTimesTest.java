package org.groovemend.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.junit.jupiter.api.Test;

/** Notes and ticks are put where they are known to be; nothing of ours says where. */
class OnsetTimesTest {

  private static final int RATE = 44_100;
  private static final AudioFormat FORMAT = new AudioFormat(RATE, 2, SampleCoding.PCM, 24, 24);
  private static final double NOISE = 0.001;

  private static double[][] side(int frames, int[] notes, int[] ticks) {
    Random random = new Random(3);
    double[][] side = new double[2][frames];
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < frames; i++) {
        side[c][i] = NOISE * random.nextGaussian();
      }
      for (int at : notes) {
        for (int i = 0; i < RATE / 4 && at + i < frames; i++) {
          double attack = Math.min(1, i / 100.0);
          side[c][at + i] += 0.2 * attack * Math.exp(-i / 6000.0) * Math.sin(i * 0.14);
        }
      }
      for (int at : ticks) {
        for (int i = 0; i < 20; i++) {
          side[c][at + i] += 0.5 * (i % 2 == 0 ? 1 : -1);
        }
      }
    }
    return side;
  }

  private static List<Long> onsets(double[][] side, int block) {
    List<Long> found = new ArrayList<>();
    OnsetTimes times = new OnsetTimes(FORMAT, NOISE * NOISE, found::add);
    double[][] part = new double[2][block];
    for (int at = 0; at < side[0].length; at += block) {
      int n = Math.min(block, side[0].length - at);
      for (int c = 0; c < 2; c++) {
        System.arraycopy(side[c], at, part[c], 0, n);
      }
      times.accept(part, n);
    }
    return found;
  }

  @Test
  void notesAreFoundWhereTheyBeginAndTicksAreNone() {
    int[] notes = new int[20];
    int[] ticks = new int[20];
    for (int i = 0; i < notes.length; i++) {
      notes[i] = RATE + i * 22_000 + 13 * i;
      ticks[i] = notes[i] + 15_000;
    }
    List<Long> found = onsets(side(12 * RATE, notes, ticks), 4096);
    assertThat(found).hasSize(notes.length);
    for (int i = 0; i < notes.length; i++) {
      // two cells of 5 ms
      assertThat(Math.abs(found.get(i) - notes[i])).isLessThanOrEqualTo(RATE / 100);
    }
  }

  @Test
  void anyCuttingIntoBlocksTellsTheSame() {
    double[][] side = side(6 * RATE, new int[] {50_000, 90_000, 130_007}, new int[] {70_000});
    List<Long> whole = onsets(side, side[0].length);
    assertThat(whole).hasSize(3);
    assertThat(onsets(side, 1)).isEqualTo(whole);
    assertThat(onsets(side, 997)).isEqualTo(whole);
  }

  @Test
  void noiseAndSilenceHaveNoOnsets() {
    assertThat(onsets(side(10 * RATE, new int[0], new int[0]), 4096)).isEmpty();
    assertThat(onsets(new double[2][RATE], 4096)).isEmpty();
  }
}
