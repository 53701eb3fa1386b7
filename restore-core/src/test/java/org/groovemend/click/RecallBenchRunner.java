package org.groovemend.click;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.groovemend.playback.CaptureCurve;

/**
 * Bench tool: predicted recall by size, and expected alarms, against what is true of a case.
 * Arguments: curve, output file, folders of cases with damaged.wav, clean.wav and truth.json. A
 * line for each true click: size in the stronger wall, found or not; a line for each bin predicted.
 */
final class RecallBenchRunner {
  private static final Pattern EVENT =
      Pattern.compile(
          "\"start\": (\\d+), \"end\": (\\d+), \"channel\": (\\d+), \"kind\": \"(\\w+)\"");

  private RecallBenchRunner() {}

  /** A true damaged range. */
  record Event(int start, int end, int channel) {}

  static List<Event> events(Path truth) throws Exception {
    List<Event> events = new ArrayList<>();
    Matcher m = EVENT.matcher(Files.readString(truth));
    while (m.find()) {
      events.add(
          new Event(
              Integer.parseInt(m.group(1)),
              Integer.parseInt(m.group(2)),
              Integer.parseInt(m.group(3))));
    }
    return events;
  }

  /** A click whose size is not that of a neighbour too: no other within 5 ms in either wall. */
  private static boolean alone(List<Event> events, Event e, int rate) {
    for (Event o : events) {
      int apart = Math.abs(o.start() - e.start());
      if (apart > rate / 4000 && apart < rate / 200) {
        return false;
      }
    }
    return true;
  }

  public static void main(String[] args) throws Exception {
    CaptureCurve captured = CaptureCurve.of(args[0]);
    List<String> lines = new ArrayList<>();
    for (int i = 2; i < args.length; i++) {
      Path folder = Path.of(args[i]);
      String name = folder.getFileName().toString();
      BenchWav damaged = BenchWav.read(folder.resolve("damaged.wav"));
      BenchWav clean = BenchWav.read(folder.resolve("clean.wav"));
      int rate = damaged.format().sampleRateHz();
      ClickParameters p = ClickParameters.defaults();
      long t0 = System.nanoTime();
      ClickCalibration calibration = ClickAnalyser.analyse(damaged, p, captured);
      long t1 = System.nanoTime();
      ClickAnalyser.analyse(damaged, ClickParameters.neutral(), captured);
      long t3 = System.nanoTime();
      ClickStage stage = new ClickStage(p, calibration, captured);
      var repairs = ClickBenchRunner.repairs(damaged, stage, stage.segmentation(damaged.format()));
      ClickGeometry g = ClickGeometry.of(p, rate);
      RepairDomain domain = RepairDomain.of(captured, rate);
      int n = (int) damaged.frames();
      int channels = damaged.samples().length;
      double[][] flatClean = new double[channels][n];
      double[][] flatDamage = new double[channels][n];
      double[] scratch = new double[n];
      for (int c = 0; c < channels; c++) {
        domain.undo(clean.samples()[c], 0, n, 0, scratch, flatClean[c], 0);
        domain.undo(damaged.samples()[c], 0, n, 0, scratch, flatDamage[c], 0);
        for (int k = 0; k < n; k++) {
          flatDamage[c][k] -= flatClean[c][k];
        }
      }
      List<Event> events = events(folder.resolve("truth.json"));
      boolean[][] bad = new boolean[channels][n];
      for (Event e : events) {
        for (int k = Math.max(0, e.start() - 30); k < Math.min(n, e.end() + 30); k++) {
          bad[e.channel()][k] = true;
        }
      }
      LocalError error = new LocalError(g);
      double floor = domain.floor(damaged.format().quantumStep());
      // ranges of the two walls that touch are one click
      boolean[] used = new boolean[events.size()];
      int clicks = 0;
      for (int e = 0; e < events.size(); e++) {
        if (used[e]) {
          continue;
        }
        double best = 0;
        boolean found = false;
        for (int o = e; o < events.size(); o++) {
          Event v = events.get(o);
          if (used[o] || Math.abs(v.start() - events.get(e).start()) > rate / 4000) {
            continue;
          }
          used[o] = true;
          int length = Math.min(v.end() - v.start(), rate / 250);
          int at = v.start() + length / 2;
          if (at < g.window() || at > n - g.window()) {
            continue;
          }
          double[] pulse =
              java.util.Arrays.copyOfRange(
                  flatDamage[v.channel()], v.start() - 2, v.start() + length);
          // surroundings as the trials see them: with all the other damage
          double[] around = flatClean[v.channel()].clone();
          for (int k = 0; k < n; k++) {
            around[k] +=
                k >= v.start() - 2 && k < v.start() + length ? 0 : flatDamage[v.channel()][k];
          }
          if (!error.fit(around, at, floor)) {
            continue;
          }
          double ratio = error.ratio(pulse);
          if (ratio > best) {
            best = ratio;
            found =
                repairs.stream()
                    .anyMatch(
                        r ->
                            r.channel() == v.channel()
                                && r.evidence().gapStart() < v.start() + length
                                && r.evidence().gapStart() + r.evidence().gapFrames() > v.start());
          }
        }
        if (best > 0 && alone(events, events.get(e), rate)) {
          clicks++;
          lines.add(
              String.format(
                  Locale.ROOT, "click,%s,%.2f,%d", name, 10 * Math.log10(best), found ? 1 : 0));
        }
      }
      long wrong =
          repairs.stream()
              .filter(
                  r -> {
                    for (long k = r.start(); k < r.end(); k++) {
                      if (bad[r.channel()][(int) k]) {
                        return false;
                      }
                    }
                    return true;
                  })
              .count();
      ClickAlarms a = calibration.alarms();
      double seconds = n / (double) rate;
      lines.add(
          String.format(
              Locale.ROOT,
              "alarms,%s,%.3f,%.3f,%.3f,%.3f,%d,%.3f,%s,%d,%.3f,%.3f",
              name,
              a.perMinute(),
              a.low(),
              a.high(),
              a.ofTailPerMinute(),
              wrong,
              seconds,
              calibration.recall().shapes(),
              calibration.recall().shapeCount(),
              (t1 - t0) * 1e-9,
              (t3 - t1) * 1e-9));
      for (ClickRecall.Size s : calibration.recall().sizes()) {
        lines.add(
            String.format(
                Locale.ROOT, "bin,%s,%.0f,%d,%d", name, s.decibels(), s.injected(), s.found()));
      }
    }
    Files.write(Path.of(args[1]), lines);
  }
}
