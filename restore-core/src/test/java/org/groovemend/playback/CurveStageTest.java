package org.groovemend.playback;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.junit.jupiter.api.Test;

class CurveStageTest {
  private static final CurveParameters NONE = CurveParameters.defaults();

  /** Wherever a segment begins: full-scale noise on a full-scale offset, the worst there is. */
  @Test
  void segmentsJoin() {
    for (String curve : new String[] {"riaa", "nab", "iec-amended"}) {
      for (CurveParameters p :
          new CurveParameters[] {
            NONE.withApply(curve),
            NONE.withUndo(curve),
            NONE.withUndo(curve).withLoading("500/800:47000/250:47000/150").withApply("nab")
          }) {
        int rate = 44_100;
        CurveStage stage = new CurveStage(p);
        Segmentation cut = stage.segmentation(AudioFormat.pcm(rate, 1, 24));
        int frames = cut.contextBefore() + 60_000;
        double[] x = new Random(2).doubles(frames, 0, 1).toArray();
        double[] whole = treat(stage, rate, x, 0, 0, frames);
        for (int start : new int[] {cut.contextBefore() + 1, frames - 500}) {
          double[] part = treat(stage, rate, x, start - cut.contextBefore(), start, frames);
          for (int i = 0; i < part.length; i++) {
            // of a gain of up to 500 at 0 Hz
            assertThat(part[i]).isCloseTo(whole[start + i], within(2e-9));
          }
        }
      }
    }
  }

  private static double[] treat(
      CurveStage stage, int rate, double[] x, int first, int start, int end) {
    double[][] out = new double[1][end - start];
    double[] window = Arrays.copyOfRange(x, first, end);
    stage
        .open(AudioFormat.pcm(rate, 1, 24))
        .treat(
            new SegmentWindow(new double[][] {window}, first, end - first, start, end, x.length),
            out);
    return out[0];
  }

  /**
   * A coarse-groove disc for 78.26 captured at 45 through a microgroove preamplifier. What the
   * preamplifier did is taken back as it was; the disc's own curve lies lower by the ratio. The
   * same after the speed was set right.
   */
  @Test
  void aCaptureAtAnotherSpeed() {
    double ratio = 78.26 / 45;
    int rate = 96_000;
    PlaybackCurve coarse = ChosenCurve.of("coarse-iec").curve();
    CurveParameters p =
        NONE.withApply("coarse-iec").withUndo("riaa").withSpeeds(78.26, 45).withGainDb(-6);
    CurveChange slow = new CurveChange(p, rate);
    CurveChange right =
        new CurveChange(
            new CurveParameters(
                "coarse-iec", "riaa", 78.26, 45, CurveParameters.RunsAt.DISC, "none", 6, -6, ""),
            rate);
    for (double hertz = 20; hertz < 11_000; hertz *= 1.1) {
      double expected = -PlaybackCurve.MICROGROOVE.gainDb(hertz) + coarse.gainDb(hertz * ratio) - 6;
      assertThat(slow.gainDb(hertz / rate)).isCloseTo(expected, within(0.05));
      // the same groove, heard at its own speed; 0 dB is 1 kHz of the preamplifier in both
      assertThat(right.gainDb(hertz * ratio / rate)).isCloseTo(expected, within(0.05));
    }
  }

  /** 24-bit words through the curve and back through its opposite, as two runs would. */
  @Test
  void applyThenUndoReturnsEveryWord() {
    double[] x = new Random(8).ints(50_000, -(1 << 22), 1 << 22).asDoubleStream().toArray();
    for (int i = 0; i < x.length; i++) {
      x[i] /= 1 << 23;
    }
    CurveStage there = new CurveStage(NONE.withApply("lp-col"));
    CurveStage back = new CurveStage(NONE.withUndo("lp-col"));
    double[] y = treat(there, 48_000, x, 0, 0, x.length);
    double[] z = treat(back, 48_000, y, 0, 0, x.length);
    for (int i = 0; i < x.length; i++) {
      assertThat(Math.rint(z[i] * (1 << 23))).isEqualTo(x[i] * (1 << 23));
    }
  }

  @Test
  void settingsThatCannotBe() {
    assertThatThrownBy(() -> NONE.withApply("riia")).isInstanceOf(UnknownCurveException.class);
    assertThatThrownBy(() -> NONE.withSpeeds(78.26, 0)).hasMessageContaining("together");
    assertThatThrownBy(() -> NONE.withSpeeds(7, 45)).hasMessageContaining("outside");
    assertThatThrownBy(() -> NONE.withSpeeds(100, 20)).hasMessageContaining("four times");
    assertThatThrownBy(() -> NONE.withGainDb(Double.NaN)).hasMessageContaining("gainDb");
    assertThatThrownBy(() -> NONE.withReason("two\nlines")).hasMessageContaining("one line");
  }

  @Test
  void theMeterTellsPeaksAndWhatIsOver() {
    CurveMeter meter = new CurveMeter();
    meter.accept(new double[][] {{0.5, -0.25}}, new double[][] {{1.5, -0.25}}, 2);
    CurveTaken taken = meter.finish();
    assertThat(taken.peakBeforeDbfs()).isCloseTo(-6.0206, within(1e-4));
    assertThat(taken.peakAfterDbfs()).isCloseTo(3.5218, within(1e-4));
    assertThat(taken.overSamples()).isEqualTo(1);
    assertThat(taken.removedRmsDbfs()).isCloseTo(-3.0103, within(1e-4));
  }
}
