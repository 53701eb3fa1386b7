package org.groovemend.rumble;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.assertj.core.data.Offset;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.Test;

/** Levels of tones are known: a sine of amplitude a has 20 log10(a) - 3.01 dBFS. */
class RumbleMeterTest {
  private static final int RATE = 48_000;
  private static final int FRAMES = 18 * RATE;
  private static final Offset<Double> CLOSE = within(0.05);

  private static RumbleTaken measure(double[][] in, double[][] out, int block) {
    RumbleMeter meter =
        new RumbleMeter(AudioFormat.pcm(RATE, in.length, 24), RumbleParameters.defaults());
    for (int at = 0; at < in[0].length; at += block) {
      int from = at;
      int to = Math.min(in[0].length, at + block);
      meter.accept(
          Arrays.stream(in).map(c -> Arrays.copyOfRange(c, from, to)).toArray(double[][]::new),
          Arrays.stream(out).map(c -> Arrays.copyOfRange(c, from, to)).toArray(double[][]::new),
          to - from);
    }
    return meter.finish();
  }

  /** Whole periods from crest to crest: the mirror image at the ends goes on as the tone would. */
  private static double[] tone(double hertz, double size) {
    double[] x = new double[FRAMES];
    for (int i = 0; i < FRAMES; i++) {
      x[i] = size * StrictMath.cos(2 * Math.PI * hertz * (i + 0.5) / RATE);
    }
    return x;
  }

  private static double[][] tones() {
    double[] lateral = tone(5, 0.1);
    double[] vertical = tone(40, 0.02);
    double[] music = tone(1000, 0.5);
    double[][] x = new double[2][FRAMES];
    for (int i = 0; i < FRAMES; i++) {
      x[0][i] = 0.01 + lateral[i] + vertical[i] + music[i];
      x[1][i] = 0.01 + lateral[i] - vertical[i] + music[i];
    }
    return x;
  }

  @Test
  void knownTones() {
    double[] music = tone(1000, 0.5);
    RumbleTaken t = measure(tones(), new double[][] {music, music}, 4096);
    assertThat(t.bands()).hasSize(4);
    assertThat(t.bands().get(0).beforeDbfs()).isCloseTo(-23.01, CLOSE);
    assertThat(t.bands().get(1).beforeDbfs()).isLessThan(-80);
    assertThat(t.bands().get(2).beforeDbfs()).isLessThan(-90);
    assertThat(t.bands().get(3).beforeDbfs()).isCloseTo(-36.99, CLOSE);
    for (RumbleTaken.Band band : t.bands()) {
      assertThat(band.afterDbfs()).as("%s", band).isLessThan(-85);
    }
    assertThat(t.channels().get(0).offsetBefore()).isCloseTo(0.01, within(1e-5));
    assertThat(t.channels().get(0).offsetAfter()).isCloseTo(0, within(1e-5));
    assertThat(t.channels().get(1).peakAfterDbfs()).isCloseTo(-6.02, CLOSE);
    // peaks of tones of other frequencies add up: 0.63 over 0.5
    assertThat(t.headroomDb()).isCloseTo(2.0, within(0.1));
    assertThat(t.removedRmsDbfs()).isCloseTo(10 * StrictMath.log10(0.0001 + 0.005 + 0.0002), CLOSE);
    assertThat(t.removedPeakDbfs()).isCloseTo(20 * StrictMath.log10(0.13), CLOSE);
  }

  @Test
  void oneChannelIsAllLateral() {
    double[] x = tone(5, 0.1);
    RumbleTaken t = measure(new double[][] {x}, new double[][] {new double[FRAMES]}, FRAMES);
    assertThat(t.bands()).hasSize(2);
    assertThat(t.bands().get(0).beforeDbfs()).isCloseTo(-23.01, CLOSE);
    assertThat(t.headroomDb()).isInfinite();
  }

  @Test
  void theCutIntoBlocksDoesNotShow() {
    double[][] x =
        Arrays.stream(tones()).map(c -> Arrays.copyOf(c, 3 * RATE)).toArray(double[][]::new);
    RumbleTaken whole = measure(x, new double[2][3 * RATE], 3 * RATE);
    for (int block : new int[] {1, 7, 1021}) {
      RumbleTaken t = measure(x, new double[2][3 * RATE], block);
      assertThat(t.bands()).isEqualTo(whole.bands());
      assertThat(t.headroomDb()).isEqualTo(whole.headroomDb());
      assertThat(t.removedRmsDbfs()).isCloseTo(whole.removedRmsDbfs(), within(1e-9));
    }
  }
}
