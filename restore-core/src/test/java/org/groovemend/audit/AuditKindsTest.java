package org.groovemend.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** One thing done to invented music at a time: it is found, measured right, and nothing else is. */
class AuditKindsTest {
  private static final int RATE = 44_100;
  private static final AudioFormat CD = AudioFormat.pcm(RATE, 2, 16);
  private static final AudioFormat WIDE = AudioFormat.pcm(RATE, 2, 24);
  private static Sound original;

  @BeforeAll
  static void play() {
    original = Sound.of(WIDE, Music.play(4711, RATE, 2, 10), null);
  }

  private static AuditOutcome audit(Sound derivative) throws IOException {
    return audit(original, derivative);
  }

  private static AuditOutcome audit(Sound from, Sound derivative) throws IOException {
    return Auditor.measured(
        from,
        from,
        WordCensus.of(from, (d, t) -> {}),
        derivative,
        derivative,
        WordCensus.of(derivative, (d, t) -> {}),
        (d, t) -> {});
  }

  private static Set<Finding.Kind> kinds(AuditOutcome outcome) {
    return outcome.findings().stream().map(Finding::kind).collect(Collectors.toSet());
  }

  private static Map<String, Object> figures(AuditOutcome outcome, Finding.Kind kind) {
    List<Finding> of = outcome.findings().stream().filter(f -> f.kind() == kind).toList();
    assertFalse(of.isEmpty(), kind + " is not among " + outcome.findings());
    return of.get(0).figures();
  }

  private static double number(AuditOutcome outcome, Finding.Kind kind, String name) {
    return ((Number) figures(outcome, kind).get(name)).doubleValue();
  }

  private static double[][] times(double[][] x, double gain) {
    for (double[] channel : x) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] *= gain;
      }
    }
    return x;
  }

  @Test
  void gainAlone() throws IOException {
    double gain = Math.pow(10, -3.21 / 20);
    AuditOutcome o = audit(Sound.of(WIDE, times(original.samples(), gain), new Random(1)));
    assertEquals(Set.of(Finding.Kind.GAIN), kinds(o), o.findings().toString());
    List<?> gains = (List<?>) figures(o, Finding.Kind.GAIN).get("gainDb");
    assertEquals(-3.21, (double) gains.get(0), 0.001);
    assertEquals(-3.21, (double) gains.get(1), 0.001);
    assertEquals(0, o.differenceCount());
  }

  @Test
  void polarityAlone() throws IOException {
    AuditOutcome o = audit(Sound.of(WIDE, times(original.samples(), -1), null));
    assertEquals(Set.of(Finding.Kind.POLARITY), kinds(o), o.findings().toString());
    assertEquals(0, o.differenceCount());
  }

  @Test
  void oneChannelUpsideDown() throws IOException {
    double[][] x = original.samples();
    for (int i = 0; i < x[1].length; i++) {
      x[1][i] = -x[1][i];
    }
    AuditOutcome o = audit(Sound.of(WIDE, x, null));
    assertEquals(Set.of(Finding.Kind.POLARITY), kinds(o), o.findings().toString());
    assertEquals(1, number(o, Finding.Kind.POLARITY, "opposedChannels"));
  }

  @Test
  void channelsExchanged() throws IOException {
    double[][] x = original.samples();
    AuditOutcome o = audit(Sound.of(WIDE, new double[][] {x[1], x[0]}, null));
    assertEquals(Set.of(Finding.Kind.CHANNELS), kinds(o), o.findings().toString());
    assertEquals(true, figures(o, Finding.Kind.CHANNELS).get("swapped"));
    assertEquals(0, o.differenceCount());
  }

  @Test
  void halfTheSum() throws IOException {
    double[][] x = original.samples();
    double[][] mono = new double[1][x[0].length];
    for (int i = 0; i < mono[0].length; i++) {
      mono[0][i] = (x[0][i] + x[1][i]) / 2;
    }
    AuditOutcome o = audit(Sound.of(AudioFormat.pcm(RATE, 1, 24), mono, new Random(2)));
    assertEquals(Set.of(Finding.Kind.CHANNELS), kinds(o), o.findings().toString());
    assertTrue(o.findings().get(0).words().contains("half the sum"), o.findings().toString());
  }

  @Test
  void trimmedAtBothEnds() throws IOException {
    double[][] x = AuditBench.shifted(original.samples(), 12_345);
    int n = x[0].length - 23_456;
    double[][] y = {java.util.Arrays.copyOf(x[0], n), java.util.Arrays.copyOf(x[1], n)};
    AuditOutcome o = audit(Sound.of(WIDE, y, null));
    assertEquals(Set.of(Finding.Kind.PLACE, Finding.Kind.CUT), kinds(o), o.findings().toString());
    assertEquals(12_345, number(o, Finding.Kind.PLACE, "samples"));
    assertEquals(0, o.differenceCount());
    List<Finding> cuts = o.findings().stream().filter(f -> f.kind() == Finding.Kind.CUT).toList();
    assertEquals(2, cuts.size());
    assertEquals(12_345 / 44_100.0, (double) cuts.get(0).figures().get("missingSeconds"), 1e-9);
    assertEquals(23_456 / 44_100.0, (double) cuts.get(1).figures().get("missingSeconds"), 1e-9);
  }

  @Test
  void twoSecondsCutOutOfTheMiddle() throws IOException {
    double[][] x = original.samples();
    int from = 4 * RATE + 77;
    int cut = 2 * RATE;
    double[][] y = new double[2][x[0].length - cut];
    for (int c = 0; c < 2; c++) {
      System.arraycopy(x[c], 0, y[c], 0, from);
      System.arraycopy(x[c], from + cut, y[c], from, y[c].length - from);
    }
    AuditOutcome o = audit(Sound.of(WIDE, y, null));
    assertEquals(Set.of(Finding.Kind.CUT), kinds(o), o.findings().toString());
    assertEquals(from, number(o, Finding.Kind.CUT, "fromFrame"));
    assertEquals(2.0, number(o, Finding.Kind.CUT, "missingSeconds"), 1e-9);
    assertEquals(0, o.differenceCount());
  }

  @Test
  void silencePutIn() throws IOException {
    double[][] x = original.samples();
    int at = 5 * RATE + 11;
    int put = 30_000;
    double[][] y = new double[2][x[0].length + put];
    for (int c = 0; c < 2; c++) {
      System.arraycopy(x[c], 0, y[c], 0, at);
      System.arraycopy(x[c], at, y[c], at + put, x[c].length - at);
    }
    AuditOutcome o = audit(Sound.of(WIDE, y, null));
    assertEquals(Set.of(Finding.Kind.INSERTION), kinds(o), o.findings().toString());
    assertEquals(at, number(o, Finding.Kind.INSERTION, "fromFrame"), 1);
    assertEquals(put / 44_100.0, number(o, Finding.Kind.INSERTION, "insertedSeconds"), 1e-9);
  }

  @Test
  void requantisedInEachManner() throws IOException {
    double[][] x = original.samples();
    assertEquals("rounded without dither", how(Sound.of(CD, x, null)));
    assertEquals("with triangular dither", how(Sound.of(CD, x, new Random(5))));
    double[][] low = original.samples();
    for (double[] channel : low) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] -= 0.5 / 32_768;
      }
    }
    assertEquals("cut off, not rounded", how(Sound.of(CD, low, null)));
    Random random = new Random(6);
    for (double[] channel : x) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] += (random.nextDouble() - 0.5) / 32_768;
      }
    }
    assertEquals("with dither of one uniform value", how(Sound.of(CD, x, null)));
  }

  private static String how(Sound derivative) throws IOException {
    AuditOutcome o = audit(derivative);
    assertEquals(Set.of(Finding.Kind.DEPTH), kinds(o), o.findings().toString());
    assertEquals(16.0, number(o, Finding.Kind.DEPTH, "toUsedBits"));
    assertEquals(0, o.differenceCount());
    return (String) figures(o, Finding.Kind.DEPTH).get("how");
  }

  /**
   * A first-order high shelf, bilinear: |H|^2 = (g^2 t^2 + 1) / (t^2 + 1) with t = tan(w / 2) /
   * tan(w0 / 2), the closed formula that the measured third octaves are held against.
   */
  @Test
  void equalised() throws IOException {
    double g = Math.pow(10, 6 / 20.0);
    double k = Math.tan(Math.PI * 2000 / RATE);
    double[][] x = original.samples();
    double b0 = (k + g) / (1 + k);
    double b1 = (k - g) / (1 + k);
    double a1 = (k - 1) / (1 + k);
    for (double[] channel : x) {
      double in = 0;
      double out = 0;
      for (int i = 0; i < channel.length; i++) {
        double y = 0.4 * (b0 * channel[i] + b1 * in) - a1 * out;
        in = channel[i];
        out = y;
        channel[i] = y;
      }
    }
    AuditOutcome o = audit(Sound.of(WIDE, x, new Random(9)));
    assertTrue(kinds(o).contains(Finding.Kind.FILTER), o.findings().toString());
    assertEquals(0, o.differenceCount(), o.findings().toString());
    int told = 0;
    for (TransferBand b : o.transfer()) {
      if (b.centreHertz() > 100 && b.centreHertz() < 16_000) {
        // mean power over the band, ends included
        double sum = 0;
        for (int i = 0; i <= 100; i++) {
          double f =
              b.centreHertz() * Math.pow(2, -1 / 6.0)
                  + i / 100.0 * b.centreHertz() * (Math.pow(2, 1 / 6.0) - Math.pow(2, -1 / 6.0));
          double t = Math.tan(Math.PI * f / RATE) / k;
          sum += 0.16 * (g * g * t * t + 1) / (t * t + 1) / 101;
        }
        assertEquals(10 * Math.log10(sum), b.gainDb(), 0.05, b.toString());
        told++;
      }
    }
    assertTrue(told > 40, "bands: " + told);
  }

  @Test
  void aPartMadeLouderAndAFade() throws IOException {
    double[][] x = original.samples();
    for (double[] channel : x) {
      for (int i = 3 * RATE; i < 5 * RATE; i++) {
        channel[i] *= 1.4;
      }
      for (int i = 8 * RATE; i < channel.length; i++) {
        channel[i] *= 1 - (i - 8.0 * RATE) / (channel.length - 8.0 * RATE);
      }
    }
    AuditOutcome o = audit(Sound.of(WIDE, x, null));
    List<?> stretches = (List<?>) figures(o, Finding.Kind.LEVEL).get("stretches");
    Map<?, ?> first = (Map<?, ?>) stretches.get(0);
    assertEquals(3 * RATE, ((Number) first.get("fromFrame")).doubleValue(), 0.4 * RATE);
    assertEquals(5 * RATE, ((Number) first.get("toFrame")).doubleValue(), 0.4 * RATE);
    assertEquals(20 * Math.log10(1.4), (double) first.get("toDb"), 0.3);
    assertFalse(kinds(o).contains(Finding.Kind.GAIN), o.findings().toString());
    assertTrue(
        stretches.stream().map(s -> (Map<?, ?>) s).anyMatch(s -> (double) s.get("toDb") < -12),
        stretches.toString());
  }

  @Test
  void silencedAndReplaced() throws IOException {
    double[][] x = original.samples();
    double[][] other = Music.play(99, RATE, 2, 10);
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < 20_000; i++) {
        x[c][3 * RATE + i] = 0;
        x[c][7 * RATE + i] = other[c][7 * RATE + i];
      }
    }
    AuditOutcome o = audit(Sound.of(WIDE, x, null));
    assertTrue(kinds(o).contains(Finding.Kind.SILENCED), o.findings().toString());
    assertTrue(kinds(o).contains(Finding.Kind.REPLACED), o.findings().toString());
    for (Difference d : o.differences()) {
      boolean first = d.from() >= 3 * RATE - 1 && d.to() <= 3 * RATE + 20_001;
      boolean second = d.from() >= 7 * RATE - 1 && d.to() <= 7 * RATE + 20_001;
      assertTrue(first || second, d.toString());
    }
  }

  @Test
  void clipped() throws IOException {
    double[][] x = times(original.samples(), 1);
    double top = 0;
    for (double v : x[0]) {
      top = Math.max(top, Math.abs(v));
    }
    for (double[] channel : x) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] = Math.max(-0.5 * top, Math.min(0.5 * top, channel[i]));
      }
    }
    AuditOutcome o = audit(Sound.of(WIDE, x, null));
    assertTrue(kinds(o).contains(Finding.Kind.CLIPPED), o.findings().toString());
  }

  @Test
  void anotherRecordingIsNotFound() throws IOException {
    assertNull(audit(Sound.of(WIDE, Music.play(12, RATE, 2, 10), null)));
    Random random = new Random(3);
    double[][] noise = new double[2][5 * RATE];
    for (double[] channel : noise) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] = 0.1 * random.nextGaussian();
      }
    }
    assertNull(audit(Sound.of(WIDE, noise, null)));
  }

  @Test
  void repairsAndAGainTogether() throws IOException {
    double[][] x = times(original.samples(), 0.5);
    for (int k = 0; k < 15; k++) {
      for (int i = 0; i < 30; i++) {
        x[k % 2][20_000 + 25_000 * k + i] += 0.1 * Math.exp(-i / 8.0);
      }
    }
    AuditOutcome o = audit(Sound.of(WIDE, x, new Random(8)));
    assertEquals(
        Set.of(Finding.Kind.GAIN, Finding.Kind.LOCAL_CHANGES), kinds(o), o.findings().toString());
    assertEquals(15, o.differenceCount());
    for (int k = 0; k < 15; k++) {
      Difference d = o.differences().get(k);
      assertEquals(20_000 + 25_000 * k, d.from(), d.toString());
      assertEquals(k % 2, d.channel());
      assertEquals(-20, d.peakDbfs(), 0.01);
    }
  }
}
