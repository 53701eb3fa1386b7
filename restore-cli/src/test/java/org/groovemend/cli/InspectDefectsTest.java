package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.simulate.DemoSide;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * One defect a file, put into the demonstration side by the test, and what the whole inspection
 * makes of it: the row of a confusion table, written to {@code target/inspection-matrix.md}.
 */
@Tag("long")
class InspectDefectsTest {
  private static final int RATE = DemoSide.SAMPLE_RATE_HZ;
  private static final double STEP = 1.0 / (1 << 23);

  @TempDir private Path dir;

  private final DemoSide side = DemoSide.generate(20_411);
  private final List<String> table = new ArrayList<>();

  /** Gathered, so that one row that fails does not hide the others. */
  private final List<String> failures = new ArrayList<>();

  /** What is done to the samples, in place or to a new length. */
  private interface Damage {
    double[][] on(double[][] x);
  }

  private int music() {
    return (int) side.truth().musicStart() + 8 * RATE;
  }

  @Test
  void eachDefectIsFoundAndTakenForNoOther() throws IOException {
    int music = music();
    row("nothing", x -> x, "", "", 0, 0);
    row("100 frames zeroed", x -> filled(x, music, 100), "interruptions", "redo", 1, 0);
    row("300 frames twice", x -> twice(x, music, 300), "interruptions", "redo", 1, 0);
    row(
        "zeros for 1.5 s",
        x -> filled(x, music, RATE * 3 / 2),
        "silence-inside",
        "redo",
        1.5,
        0.001);
    row("16 bits in 24", x -> stepped(x, 256 * STEP, 1), "used-bits", "look", 16, 0);
    row("16 bits times 0.7317", x -> stepped(x, 256 * STEP, 0.7317), "codes-met", "look", 0, 0.05);
    row("upsampled from 44.1 kHz", x -> cut(x, 20_000), "band-edge", "look", 20_000, 300);
    row("clipped at -16 dBFS", x -> clipped(x, 0.16), "clipped-in-music", "redo", Double.NaN, 0);
    row("offset 1 %", x -> plus(x, i -> 0.01), "offset", "look", -40, 0.1);
    row(
        "offset drifting by 1 %",
        x -> plus(x, i -> 0.01 * i / x[0].length - 0.005),
        "offset-drift",
        "look",
        20 * Math.log10(0.01 * 5 / 6),
        0.2);
    row(
        "hum, 50 Hz, -40 dBFS",
        x -> plus(x, i -> 0.01 * Math.sin(2 * Math.PI * 50.0 * i / RATE)),
        "hum",
        "look",
        Double.NaN,
        0);
    row("right wall 3 frames late", x -> late(x, 3), "wall-delay", "look", 31.25, 0.05);
    row("right lead reversed", x -> scaled(x, -1), "correlation", "look", -1, 0.01);
    row("right wall 6 dB weaker", x -> scaled(x, 0.5), "balance", "look", 6.35, 0.1);
    row("stuck for 5 turns", x -> stuck(x, music, 5), "repeated-turns", "redo", 5, 0.4);
    row("jumped back once", x -> stuck(x, music, 1), "repeated-turns", "look", 1, 0.4);
    row("begins in the music", x -> from(x, music), "lead-in", "look", Double.NaN, 0);
    row("overloaded stage", InspectDefectsTest::overloaded, "overload", "look", Double.NaN, 0);
    row("wow, 1 % peak to peak", x -> swaying(x, 0.005), "wow", "look", 1, 0.15);
    humLevel(-40);
    humLevel(-50);
    tickRate(120);
    tickRate(1200);
    written();
    assertEquals(List.of(), failures);
  }

  /**
   * @param id of the measure that should tell, empty for none
   * @param value what it should read, NaN for anything
   */
  private void row(
      String name, Damage damage, String id, String verdict, double value, double tolerance)
      throws IOException {
    double[][] x = {side.damaged()[0].clone(), side.damaged()[1].clone()};
    JsonNode found = inspect(damage.on(x));
    Set<String> others = new TreeSet<>();
    String told = "";
    for (JsonNode finding : found.get("findings")) {
      String said = finding.get("verdict").asText();
      if (finding.get("id").asText().equals(id)) {
        told = said + ", " + finding.get("text").asText() + " " + finding.get("unit").asText();
        double read = finding.get("value").asDouble();
        if (!verdict.equals(said) || Math.abs(read - value) > tolerance) {
          failures.add(name + ": " + finding);
        }
      } else if (said.equals("look") || said.equals("redo")) {
        others.add(finding.get("id").asText() + " " + said);
      }
    }
    table.add(
        String.format(
            Locale.ROOT,
            "| %s | %s | %s | %s |",
            name,
            id.isEmpty() ? "none" : id,
            told.strip(),
            others.isEmpty() ? "none" : String.join(", ", others)));
    boolean graver = others.stream().anyMatch(o -> o.endsWith("redo")) && !verdict.equals("redo");
    if (graver || id.isEmpty() && !others.isEmpty()) {
      failures.add(name + " also: " + others);
    }
    written();
  }

  private void written() throws IOException {
    Path target = Path.of(System.getProperty("basedir", "."), "target");
    Files.createDirectories(target);
    Files.write(target.resolve("inspection-matrix.md"), table);
  }

  /** Level of the hum's fundamental in both walls, within 1 dB. */
  private void humLevel(double dbfs) throws IOException {
    double peak = Math.pow(10, dbfs / 20);
    double[][] x = {side.damaged()[0].clone(), side.damaged()[1].clone()};
    plus(x, i -> peak * Math.sin(2 * Math.PI * 50.0 * i / RATE));
    double worst = 0;
    int lines = 0;
    for (JsonNode family : inspect(x).at("/detail/hum/families")) {
      for (JsonNode line : family.get("lines")) {
        if (line.get("harmonic").asInt() == 1) {
          lines++;
          double off = line.get("levelDbfs").asDouble() - dbfs;
          worst = Math.abs(off) > Math.abs(worst) ? off : worst;
        }
      }
    }
    figure("hum at " + dbfs + " dBFS", lines + " walls, off by at most " + round(worst) + " dB");
    if (lines != 2 || Math.abs(worst) > 1) {
      failures.add("hum " + dbfs + ": " + lines + " lines, off by " + worst);
    }
  }

  /** Ticks of two samples in both walls, added to those there are, a minute; within 5 %. */
  private void tickRate(double perMinute) throws IOException {
    double[][] x = {side.damaged()[0].clone(), side.damaged()[1].clone()};
    double before = value(inspect(x), "ticks");
    double apart = 60 / perMinute * RATE;
    for (double at = RATE; at < x[0].length - RATE; at += apart) {
      for (double[] c : x) {
        c[(int) at] += 0.3;
        c[(int) at + 1] -= 0.2;
      }
    }
    double whole = perMinute * (x[0].length - 2.0 * RATE) / x[0].length;
    double found = value(inspect(x), "ticks") - before;
    // both walls are counted
    double off = 100 * (found / (2 * whole) - 1);
    figure(perMinute + " ticks a minute added", "off by " + round(off) + " %");
    if (Math.abs(off) > 5) {
      failures.add(perMinute + " ticks: off by " + off + " %");
    }
  }

  private static double value(JsonNode side, String id) {
    for (JsonNode finding : side.get("findings")) {
      if (finding.get("id").asText().equals(id)) {
        return finding.get("value").asDouble();
      }
    }
    throw new IllegalArgumentException(id);
  }

  private static String round(double value) {
    return String.format(Locale.ROOT, "%.2f", value);
  }

  private void figure(String what, String found) {
    table.add("| " + what + " | level or count | " + found + " | |");
  }

  private JsonNode inspect(double[][] x) throws IOException {
    Path file = dir.resolve("side.wav");
    Files.deleteIfExists(file);
    long[][] words = new long[2][x[0].length];
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < words[c].length; i++) {
        words[c][i] = Math.round(x[c][i] / STEP);
      }
    }
    try (WavWriter writer =
        WavWriter.create(file, AudioFormat.pcm(RATE, 2, 24), words[0].length, List.of(), null)) {
      writer.write(words, 0, words[0].length);
    }
    CommandRun run = CommandRun.of("inspect", file, "--captured", "flat", "--json");
    return new ObjectMapper().readTree(run.out()).get("side");
  }

  private static double[][] filled(double[][] x, int at, int frames) {
    for (double[] c : x) {
      java.util.Arrays.fill(c, at, at + frames, 0);
    }
    return x;
  }

  private static double[][] twice(double[][] x, int at, int frames) {
    for (double[] c : x) {
      System.arraycopy(c, at, c, at + frames, frames);
    }
    return x;
  }

  private static double[][] stepped(double[][] x, double step, double gain) {
    for (double[] c : x) {
      for (int i = 0; i < c.length; i++) {
        c[i] = Math.rint(c[i] / step) * step * gain;
      }
    }
    return x;
  }

  private static double[][] clipped(double[][] x, double level) {
    for (double[] c : x) {
      for (int i = 0; i < c.length; i++) {
        c[i] = Math.max(-level, Math.min(level, c[i]));
      }
    }
    return x;
  }

  private static double[][] overloaded(double[][] x) {
    for (double[] c : x) {
      for (int i = 0; i < c.length; i++) {
        double over = Math.max(0, Math.abs(c[i]) - 0.12);
        c[i] =
            Math.signum(c[i]) * (Math.min(Math.abs(c[i]), 0.12) + 0.003 * Math.tanh(over / 0.05));
      }
    }
    return x;
  }

  private static double[][] plus(double[][] x, java.util.function.IntToDoubleFunction added) {
    for (double[] c : x) {
      for (int i = 0; i < c.length; i++) {
        c[i] += added.applyAsDouble(i);
      }
    }
    return x;
  }

  private static double[][] scaled(double[][] x, double gain) {
    for (int i = 0; i < x[1].length; i++) {
      x[1][i] *= gain;
    }
    return x;
  }

  private static double[][] late(double[][] x, int frames) {
    System.arraycopy(x[1], 0, x[1], frames, x[1].length - frames);
    return x;
  }

  private static double[][] from(double[][] x, int at) {
    int end = at + 12 * RATE;
    return new double[][] {
      java.util.Arrays.copyOfRange(x[0], at, end), java.util.Arrays.copyOfRange(x[1], at, end)
    };
  }

  private double[][] stuck(double[][] x, int at, int more) {
    int turn = (int) Math.round(60 / side.truth().rpm() * RATE);
    double[][] out = new double[2][x[0].length + more * turn];
    for (int c = 0; c < 2; c++) {
      System.arraycopy(x[c], 0, out[c], 0, at);
      for (int k = 0; k < more; k++) {
        System.arraycopy(x[c], at - turn, out[c], at + k * turn, turn);
      }
      System.arraycopy(x[c], at, out[c], at + more * turn, x[c].length - at);
    }
    return out;
  }

  /** Everything from a frequency on taken out in the transform of the whole side. */
  private static double[][] cut(double[][] x, double hertz) {
    int size = 1 << 22;
    RealFft fft = new RealFft(size);
    for (int c = 0; c < 2; c++) {
      double[] a = java.util.Arrays.copyOf(x[c], size);
      fft.forward(a);
      a[1] = 0;
      java.util.Arrays.fill(a, 2 * (int) (hertz / RATE * size), size, 0);
      fft.inverse(a);
      x[c] = java.util.Arrays.copyOf(a, x[c].length);
    }
    return x;
  }

  /**
   * Time that sways once a turn; straight lines between samples, which dull the treble a little.
   */
  private double[][] swaying(double[][] x, double peak) {
    double turn = 60 / side.truth().rpm() * RATE;
    double reach = peak * turn / (2 * Math.PI);
    double[][] out = new double[2][x[0].length];
    for (int i = 0; i < out[0].length; i++) {
      double at = i + reach * Math.sin(2 * Math.PI * i / turn);
      int k = (int) Math.max(0, Math.min(x[0].length - 2, Math.floor(at)));
      double part = at - k;
      for (int c = 0; c < 2; c++) {
        out[c][i] = x[c][k] + part * (x[c][k + 1] - x[c][k]);
      }
    }
    return out;
  }
}
