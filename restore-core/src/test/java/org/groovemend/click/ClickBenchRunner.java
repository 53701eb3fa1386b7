package org.groovemend.click;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;

/**
 * Bench tool: restores files exactly as the contract says. Arguments: curve, then pairs of input
 * and output folder.
 */
final class ClickBenchRunner {
  private ClickBenchRunner() {}

  static List<Repair> repairs(BenchWav wav, RepairStage stage, Segmentation s) {
    RepairStage.Worker worker = stage.open(wav.format());
    List<Repair> all = new ArrayList<>();
    int n = (int) wav.frames();
    for (int from = 0; from < n; from += s.segmentFrames()) {
      int end = Math.min(n, from + s.segmentFrames());
      int lo = Math.max(0, from - s.contextBefore());
      int hi = Math.min(n, end + s.contextAfter());
      double[][] x = new double[wav.samples().length][];
      for (int c = 0; c < x.length; c++) {
        x[c] = java.util.Arrays.copyOfRange(wav.samples()[c], lo, hi);
      }
      all.addAll(worker.repair(new SegmentWindow(x, lo, hi - lo, from, end, n)));
    }
    return all;
  }

  static void apply(List<Repair> repairs, double[][] samples) {
    for (Repair r : repairs) {
      for (int i = 0; i < r.removed().length; i++) {
        samples[r.channel()][(int) r.start() + i] -= r.removed()[i];
      }
    }
  }

  public static void main(String[] args) throws Exception {
    CaptureCurve captured = CaptureCurve.of(args[0]);
    for (int i = 1; i + 1 < args.length; i += 2) {
      BenchWav wav = BenchWav.read(Path.of(args[i]));
      long t0 = System.nanoTime();
      ClickParameters p = ClickParameters.defaults();
      ClickCalibration calibration = ClickAnalyser.analyse(wav, p, captured);
      long t1 = System.nanoTime();
      ClickStage stage = new ClickStage(p, calibration, captured);
      List<Repair> repairs = repairs(wav, stage, stage.segmentation(wav.format()));
      long t2 = System.nanoTime();
      BenchWav out = wav.copy();
      apply(repairs, out.samples());
      Path folder = Path.of(args[i + 1]);
      java.nio.file.Files.createDirectories(folder);
      out.write(folder.resolve("restored.wav"));
      try (PrintWriter csv = new PrintWriter(folder.resolve("edits.csv").toFile())) {
        csv.println("start,end,channel,gap,gapFrames,statistic");
        for (Repair r : repairs) {
          csv.println(
              r.start()
                  + ","
                  + r.end()
                  + ","
                  + r.channel()
                  + ","
                  + r.evidence().gapStart()
                  + ","
                  + r.evidence().gapFrames()
                  + ","
                  + r.evidence().statistic());
        }
      }
      double seconds = wav.frames() / (double) wav.format().sampleRateHz();
      try (PrintWriter log = new PrintWriter(folder.resolve("log.txt").toFile())) {
        log.println(calibration);
        log.printf(
            "analyse %.1f x, repair %.1f x%n",
            seconds / ((t1 - t0) * 1e-9), seconds / ((t2 - t1) * 1e-9));
      }
    }
  }
}
