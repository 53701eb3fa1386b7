package org.groovemend.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.SplittableRandom;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.Test;

class EnvelopeTest {

  private static final AudioFormat STEREO = AudioFormat.pcm(48_000, 2, 24);

  @Test
  void extremesAndRmsOfKnownSamples() {
    EnvelopeBuilder builder = new EnvelopeBuilder(STEREO, 8, 2);
    builder.accept(
        new double[][] {{0.5, -0.5, 0.5, -0.5, 0, 0.25, 0, 0}, {0, 0, 0, 0, -1, -1, -1, -1}}, 0, 8);
    Envelope e = builder.build();
    assertThat(e.max()).isDeepEqualTo(new float[][] {{0.5f, 0.25f}, {0, -1}});
    assertThat(e.min()).isDeepEqualTo(new float[][] {{-0.5f, 0}, {0, -1}});
    assertThat(e.rms()).isDeepEqualTo(new float[][] {{0.5f, 0.125f}, {0, 1}});
    assertThat(e.peak()).isEqualTo(1);
  }

  @Test
  void columnsDivideTheSideWithoutGapOrOverlap() {
    for (long frames : new long[] {1, 2, 7, 959, 960, 961, 12_345, 2_764_800_000L}) {
      Columns columns = Columns.of(frames, 960);
      assertThat(columns.count()).isEqualTo((int) Math.min(960, frames));
      assertThat(columns.start(0)).isZero();
      assertThat(columns.start(columns.count())).isEqualTo(frames);
      for (int c = 0; c < columns.count(); c++) {
        assertThat(columns.of(columns.start(c))).isEqualTo(c);
        assertThat(columns.of(columns.start(c + 1) - 1)).isEqualTo(c);
      }
    }
  }

  @Test
  void anyCuttingOfTheStreamGivesTheSameEnvelope() {
    SplittableRandom random = new SplittableRandom(11);
    double[][] x = new double[2][12_345];
    for (double[] channel : x) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] = random.nextDouble(-1, 1);
      }
    }
    Envelope whole = envelope(x, x[0].length);
    for (int block : new int[] {1, 7, 64, 1021, 4096}) {
      Envelope cut = envelope(x, block);
      assertThat(cut.min()).isDeepEqualTo(whole.min());
      assertThat(cut.max()).isDeepEqualTo(whole.max());
      assertThat(cut.rms()).isDeepEqualTo(whole.rms());
    }
    x[1][7_000] = 1.5;
    assertThat(envelope(x, 64).max()).isNotEqualTo(whole.max());
  }

  private static Envelope envelope(double[][] x, int block) {
    EnvelopeBuilder builder = new EnvelopeBuilder(STEREO, x[0].length, 100);
    for (int at = 0; at < x[0].length; at += block) {
      builder.accept(x, at, Math.min(block, x[0].length - at));
    }
    return builder.build();
  }

  @Test
  void shortSideHasAColumnAFrameAndAnEmptyOneNone() {
    EnvelopeBuilder one = new EnvelopeBuilder(STEREO, 3, 960);
    one.accept(new double[][] {{1, 2, 3}, {4, 5, 6}}, 0, 3);
    assertThat(one.build().max()).isDeepEqualTo(new float[][] {{1, 2, 3}, {4, 5, 6}});
    assertThat(new EnvelopeBuilder(STEREO, 0, 960).build().columns()).isZero();
  }

  @Test
  void tooManyOrTooFewFramesAreAnError() {
    EnvelopeBuilder builder = new EnvelopeBuilder(STEREO, 3, 10);
    builder.accept(new double[2][2], 0, 2);
    assertThatThrownBy(builder::build).hasMessage("2 of 3 frames were given");
    assertThatThrownBy(() -> builder.accept(new double[2][2], 0, 2))
        .hasMessage("frame 4 is past the end, 3");
  }
}
