package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;

import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.SegmentWindow;
import org.junit.jupiter.api.Test;

class RemovedPulseTest {
  private static final int RATE = 48_000;
  private static final int AT = 10_000;
  private static final AudioFormat MONO = AudioFormat.pcm(RATE, 1, 24);

  private final double[] x = new double[20_000];

  private RemovedPulse pulse(CaptureCurve captured) {
    for (int n = 0; n < x.length; n++) {
      x[n] = 0.1 * Math.sin(0.02 * n);
    }
    return new RemovedPulse(RepairDomain.of(captured, RATE), MONO, 400, 1e-4);
  }

  private SegmentWindow window() {
    return new SegmentWindow(new double[][] {x}, 0, x.length, 0, x.length, x.length);
  }

  @Test
  void takingAClickAwayIsBelieved() {
    RemovedPulse removed = pulse(CaptureCurve.FLAT);
    double[] click = removed.begin();
    for (int i = 0; i < 10; i++) {
      click[i] = 0.5;
      x[AT + i] += 0.5;
    }
    double[] result = removed.throughCurve(10, 400);
    assertThat(result).hasSize(10);
    assertThat(removed.plausible(window(), 0, AT, 10, result)).isTrue();
  }

  @Test
  void aSwingAboveTheSoundAroundIsNot() {
    RemovedPulse removed = pulse(CaptureCurve.FLAT);
    double[] swing = removed.begin();
    for (int i = 0; i < 10; i++) {
      swing[i] = 0.5;
    }
    double[] result = removed.throughCurve(10, 400);
    assertThat(removed.plausible(window(), 0, AT, 10, result)).isFalse();
  }

  @Test
  void whatNobodyWouldHearIsNothing() {
    RemovedPulse removed = pulse(CaptureCurve.FLAT);
    removed.begin()[3] = 5e-5;
    assertThat(removed.throughCurve(10, 400)).isEmpty();
  }

  /** A pulse with a net area leaves the 3,180 microseconds of the curve behind it. */
  @Test
  void theCurveDrawsAPulseOut() {
    RemovedPulse removed = pulse(CaptureCurve.RIAA);
    double[] click = removed.begin();
    java.util.Arrays.fill(click, 0, 10, 0.5);
    double[] result = removed.throughCurve(10, 10_000);
    assertThat(result.length).isGreaterThan(RATE / 100);
    int later = (int) (0.00318 * RATE);
    assertThat(result[200 + later] / result[200]).isBetween(0.30, 0.42);
  }
}
