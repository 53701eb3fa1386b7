package org.groovemend.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Struck notes in noise, before and after changes that are known. */
class OnsetsAndDecaysTest {

  private static final int RATE = 48_000;
  private static final int LEAD_IN = 4 * RATE;
  private static final int NOTE = 2 * RATE;
  private static final int NOTES = 9;
  private static final int FRAMES = LEAD_IN + NOTES * NOTE;
  private static final double NOISE = 0.001;
  private static final AudioFormat MONO = AudioFormat.pcm(RATE, 1, 24);

  private final double[] music = new double[FRAMES];
  private final double[] noise = new double[FRAMES];
  private final boolean[] repaired = new boolean[FRAMES];
  private double[] before;

  @BeforeEach
  void strike() {
    Random random = new Random(5);
    for (int i = 0; i < FRAMES; i++) {
      noise[i] = NOISE * random.nextGaussian();
      if (i >= LEAD_IN) {
        // 40 dB a second, so that it passes the noise after 1.2 s
        double time = (i - LEAD_IN) % NOTE / (double) RATE;
        music[i] = 0.3 * Math.pow(10, -2 * time) * Math.sin(2 * Math.PI * 1000 * time);
      }
    }
    before = sum(1, 1);
  }

  private double[] sum(double musicGain, double noiseGain) {
    double[] x = new double[FRAMES];
    for (int i = 0; i < FRAMES; i++) {
      x[i] = musicGain * music[i] + noiseGain * noise[i];
    }
    return x;
  }

  private OnsetsAndDecays measure(double[] after) {
    return measure(after, 10_000, FRAMES);
  }

  private OnsetsAndDecays measure(double[] after, int block, long end) {
    GrooveEnergyMeter groove = new GrooveEnergyMeter(MONO, 100, LEAD_IN);
    boolean[][] none = {new boolean[LEAD_IN]};
    groove.accept(new double[][] {before}, new double[][] {after}, none, LEAD_IN);
    OnsetsAndDecays meter = new OnsetsAndDecays(MONO, groove.finish(), LEAD_IN / 2, end);
    for (int at = 0; at < FRAMES; at += block) {
      int n = Math.min(block, FRAMES - at);
      boolean[] edits = new boolean[n];
      System.arraycopy(repaired, at, edits, 0, n);
      meter.accept(
          new double[][] {part(before, at, n)},
          new double[][] {part(after, at, n)},
          new boolean[][] {edits},
          n);
    }
    return meter;
  }

  private static double[] part(double[] x, int at, int n) {
    double[] part = new double[n];
    System.arraycopy(x, at, part, 0, n);
    return part;
  }

  @Test
  void whatIsNotChangedIsKept() {
    OnsetsAndDecays kept = measure(before.clone());
    assertThat(kept.onsets().count()).isEqualTo(NOTES);
    // the last note ends with the side, not in the noise for 200 ms
    assertThat(kept.decays().count()).isBetween(NOTES - 1L, (long) NOTES);
    assertThat(kept.onsets().medianDb()).isZero();
    assertThat(kept.decays().medianDb()).isZero();
    assertThat(kept.tails().worstDb()).isZero();
    assertThat(kept.onsets().repaired()).isZero();
  }

  @Test
  void halfTheAmplitudeInDecaysIsSixDecibelsAndOnsetsAreKept() {
    double[] after = before.clone();
    for (int i = 0; i < FRAMES; i++) {
      boolean late = i < LEAD_IN || (i - LEAD_IN) % NOTE > RATE / 2;
      after[i] *= late ? 0.5 : 1;
    }
    OnsetsAndDecays kept = measure(after);
    assertThat(kept.onsets().medianDb()).isZero();
    // 20 log10 0.5, in steps of 0.01 dB
    assertThat(kept.decays().medianDb()).isCloseTo(-6.02, within(0.006));
    assertThat(kept.tails().medianDb()).isCloseTo(-6.02, within(0.006));
    assertThat(kept.decays().worstDb()).isCloseTo(-6.0206, within(0.01));
  }

  @Test
  void loweredNoiseIsNotTakenForLostMusic() {
    OnsetsAndDecays kept = measure(sum(1, 0.25));
    assertThat(kept.onsets().medianDb()).isCloseTo(0, within(0.05));
    // white noise over 4800 samples, 8 to 9 dB under the music: 0.05 dB
    assertThat(kept.tails().chanceDb()).isBetween(0.03, 0.07);
    // what is lost of the products of music and noise is three quarters of their chance
    assertThat(kept.tails().medianDb()).isCloseTo(0, within(0.06));
    assertThat(kept.tails().worstDb()).isCloseTo(0, within(0.2));
    // without taking the groove off, the noise that is gone would look like music
    assertThat(kept.tails().medianIfNoiseStayedDb()).isLessThan(-0.3);
    assertThat(kept.tails().medianIfNoiseStayedDb()).isLessThan(kept.tails().medianDb());
  }

  @Test
  void worstPlaceIsNamed() {
    double[] after = before.clone();
    int start = LEAD_IN + 3 * NOTE;
    for (int i = start; i < start + RATE / 50; i++) {
      after[i] *= 0.5;
    }
    OnsetsAndDecays kept = measure(after);
    assertThat(kept.onsets().medianDb()).isZero();
    assertThat(kept.onsets().worstDb()).isCloseTo(-6.02, within(0.1));
    assertThat(kept.onsets().worstFrame()).isEqualTo(start);
    assertThat(kept.decays().worstDb()).isZero();
  }

  @Test
  void repairedPlacesAreLeftOut() {
    double[] after = before.clone();
    for (int note = 0; note < NOTES; note++) {
      int start = LEAD_IN + note * NOTE + 300;
      for (int i = start; i < start + 50; i++) {
        before[i] += 0.9;
        repaired[i] = true;
      }
    }
    OnsetsAndDecays kept = measure(after);
    assertThat(kept.onsets().count()).isEqualTo(NOTES);
    assertThat(kept.onsets().repaired()).isEqualTo(NOTES);
    assertThat(kept.onsets().worstDb()).isCloseTo(0, within(1e-9));
  }

  @Test
  void tickIsNoOnsetNorWhatLiesBehindTheMusic() {
    before[LEAD_IN + NOTE + RATE * 3 / 2] += 0.5;
    double[] after = before.clone();
    assertThat(measure(after).onsets().count()).isEqualTo(NOTES);
    assertThat(measure(after, 10_000, LEAD_IN + 4L * NOTE).onsets().count()).isEqualTo(4);
  }

  @Test
  void noiseAloneHasNeither() {
    before = sum(0, 1);
    OnsetsAndDecays kept = measure(sum(0, 0.25));
    assertThat(kept.onsets().count()).isZero();
    assertThat(kept.decays().count()).isZero();
    assertThat(kept.onsets().medianDb()).isNaN();
    assertThat(kept.onsets().worstDb()).isNaN();
  }

  @Test
  void cuttingIntoBlocksChangesNothing() {
    double[] after = sum(0.9, 0.3);
    OnsetsAndDecays one = measure(after, FRAMES, FRAMES);
    OnsetsAndDecays other = measure(after, 1237, FRAMES);
    assertThat(other.onsets()).isEqualTo(one.onsets());
    assertThat(other.decays()).isEqualTo(one.decays());
  }

  @Test
  void grooveIsMeasured() {
    GrooveEnergyMeter meter = new GrooveEnergyMeter(MONO, 100, LEAD_IN);
    meter.accept(
        new double[][] {noise},
        new double[][] {sum(0, 0.5)},
        new boolean[][] {new boolean[LEAD_IN]},
        LEAD_IN);
    GrooveEnergy groove = meter.finish();
    // white noise less the 0.4 % of its band below 100 Hz; 14,400 samples a window: 1.2 %
    assertThat(groove.before()).isCloseTo(NOISE * NOISE, within(0.02 * NOISE * NOISE));
    assertThat(groove.after() / groove.before()).isCloseTo(0.25, within(1e-9));
    // square root of 2 / N for N independent Gaussian samples; from few windows
    assertThat(groove.decaySpread()).isCloseTo(Math.sqrt(2 / 14_400.0), within(0.006));
    assertThat(groove.onsetSpread()).isCloseTo(Math.sqrt(2 / 960.0), within(0.01));
  }
}
