package org.groovemend.rumble;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.Random;
import org.groovemend.stage.ArrayRanges;
import org.junit.jupiter.api.Test;

class RumbleAnalyserTest {
  private static final int RATE = 8_000;
  private static final int FRAMES = 30 * RATE;
  private static final int BARE = 3 * RATE;

  private static RumbleFinding find(double[][] x, RumbleParameters p) throws IOException {
    return RumbleAnalyser.analyse(ArrayRanges.of(RATE, x), p, 0, 0).finding();
  }

  private static RumbleFinding find(double[][] x) throws IOException {
    return find(x, RumbleParameters.defaults());
  }

  private static RumbleParameters always() {
    return new RumbleParameters(16, 80, 4, RumbleParameters.VerticalPart.ALWAYS, -60);
  }

  /** Notes of 300 and 55 Hz that come and go, faint noise under them; the bass by channel. */
  private static double[][] music(double left, double right) {
    Random random = new Random(1);
    double[][] x = new double[2][FRAMES];
    for (int i = 0; i < FRAMES; i++) {
      double t = i / (double) RATE;
      double gate = i < BARE || t % 3 > 2 ? 0 : StrictMath.sin(Math.PI * (t % 3) / 2);
      double bass = gate * StrictMath.sin(2 * Math.PI * 55 * t);
      double note = 0.2 * gate * StrictMath.sin(2 * Math.PI * 300 * t);
      x[0][i] = note + left * bass + 2e-5 * random.nextGaussian();
      x[1][i] = note + right * bass + 2e-5 * random.nextGaussian();
    }
    return x;
  }

  /** Vertical noise about 30 Hz of some 10 Hz width. */
  private static double[][] rumbling(double[][] x, double size) {
    Random random = new Random(2);
    double re = 0;
    double im = 0;
    double keep = StrictMath.exp(-2 * Math.PI * 5 / RATE);
    double step = Math.sqrt(1 - keep * keep);
    for (int i = 0; i < FRAMES; i++) {
      re = keep * re + step * random.nextGaussian();
      im = keep * im + step * random.nextGaussian();
      double angle = 2 * Math.PI * 30 * i / RATE;
      double y = size * (re * StrictMath.cos(angle) - im * StrictMath.sin(angle));
      x[0][i] += y;
      x[1][i] -= y;
    }
    return x;
  }

  @Test
  void steadyVerticalBassIsRumble() throws IOException {
    RumbleFinding f = find(rumbling(music(0.2, 0.2), 0.003));
    assertThat(f.verticalTaken()).as(f.reason()).isTrue();
    // rms of one wall 0.003, all of it vertical: -50.5 dBFS
    assertThat(f.verticalBandDbfs()).isCloseTo(-50.5, within(3.0));
  }

  @Test
  void bassOnOneSideIsMusic() throws IOException {
    RumbleFinding f = find(rumbling(music(0.2, 0), 0.003));
    assertThat(f.verticalTaken()).as(f.reason()).isFalse();
    assertThat(f.reason()).contains("may be stereo bass");
    assertThat(find(rumbling(music(0.2, 0), 0.003), always()).verticalTaken()).isTrue();
  }

  /**
   * Cartridges and converters are not quite alike: bass of the middle leaks into the difference.
   */
  @Test
  void channelsNotQuiteAlikeDoNotLookLikeStereoBass() throws IOException {
    RumbleFinding f = find(rumbling(music(0.2, 0.19), 0.003));
    assertThat(f.verticalTaken()).as(f.reason()).isTrue();
  }

  @Test
  void faintRumbleIsLeft() throws IOException {
    RumbleFinding f = find(rumbling(music(0.2, 0.2), 0.00005));
    assertThat(f.taken()).as(f.reason()).isFalse();
    assertThat(f.reason()).contains("below the loud music");
  }

  /** A tenth of the side before the stylus is down: its quietest moments tell nothing. */
  @Test
  void bareGrooveTellsBetterThanQuietMoments() throws IOException {
    double[][] x = rumbling(music(0.2, 0.2), 0.003);
    Random converter = new Random(3);
    for (double[] channel : x) {
      for (int i = 0; i < FRAMES; i++) {
        if (i < 2 * BARE / 3 || i >= FRAMES - BARE) {
          channel[i] = 1e-7 * converter.nextGaussian();
        }
      }
    }
    assertThat(find(x).verticalTaken()).isFalse();
    RumbleFinding told =
        RumbleAnalyser.analyse(
                ArrayRanges.of(RATE, x), RumbleParameters.defaults(), 2 * BARE / 3 + 800, BARE)
            .finding();
    assertThat(told.verticalTaken()).as(told.reason()).isTrue();
  }

  @Test
  void warpAloneAndOffsetAloneAreWorthTaking() throws IOException {
    for (double warp : new double[] {0, 0.02}) {
      double[][] x = music(0.2, 0.2);
      double offset = warp == 0 ? 0.01 : 0;
      for (int i = 0; i < FRAMES; i++) {
        double y = offset + warp * StrictMath.sin(2 * Math.PI * 0.5556 * i / RATE);
        x[0][i] += y;
        x[1][i] += y;
      }
      RumbleFinding f = find(x);
      assertThat(f.lowTaken()).as(f.reason()).isTrue();
      assertThat(f.verticalTaken()).isFalse();
      // amplitude 0.02, or the constant 0.01
      assertThat(f.lowDbfs()).isCloseTo(warp == 0 ? -40 : -37, within(3.0));
    }
  }

  @Test
  void sidesWithoutVerticalPart() throws IOException {
    double[][] x = music(0.2, 0.2);
    assertThat(find(new double[][] {x[0]}, always()).reason()).contains("one channel");
    assertThat(find(new double[][] {x[0], x[0]}, always()).reason()).contains("are the same");
    double[][] dead = {x[0], new double[FRAMES]};
    assertThat(find(dead).verticalTaken()).isFalse();
  }

  @Test
  void sidesWithLittleInThem() throws IOException {
    RumbleFinding silent = find(new double[2][RATE]);
    assertThat(silent.taken()).isFalse();
    assertThat(silent.reason()).contains("Nothing sounds");
    double[][] millisecond = {
      {0.1, 0.2, 0.1, 0.1, 0.3, 0.1, 0.2, 0.1}, {0, 0.1, 0, 0, 0, 0.1, 0, 0}
    };
    RumbleFinding f = find(millisecond);
    assertThat(f.lowTaken()).isTrue();
    assertThat(f.reason()).contains("shorter than 4 s");
    assertThat(find(new double[2][0]).taken()).isFalse();
    double[] tone = Treated.tone(FRAMES, RATE, 10, 1);
    RumbleFinding low = find(new double[][] {tone, tone});
    assertThat(low.lowTaken()).isTrue();
    assertThat(low.reason()).contains("Most of the energy");
  }

  @Test
  void settingsSwitchPartsOff() throws IOException {
    double[][] x = rumbling(music(0.2, 0.2), 0.003);
    RumbleParameters.VerticalPart judged = RumbleParameters.VerticalPart.JUDGED;
    RumbleFinding lateral = find(x, new RumbleParameters(16, 0, 4, judged, -120));
    assertThat(lateral.lowTaken()).isTrue();
    assertThat(lateral.verticalTaken()).isFalse();
    RumbleFinding vertical = find(x, new RumbleParameters(0, 80, 4, judged, -120));
    assertThat(vertical.lowTaken()).isFalse();
    assertThat(vertical.verticalTaken()).isTrue();
  }
}
