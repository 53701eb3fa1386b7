package org.groovemend.thump;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import org.groovemend.click.BenchWav;
import org.groovemend.stage.Repair;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;

/**
 * Bench tool: treats files exactly as the contract says and lists every place looked at. Arguments:
 * pairs of input file and output folder.
 */
final class ThumpBenchRunner {
  private ThumpBenchRunner() {}

  public static void main(String[] args) throws Exception {
    for (int i = 0; i + 1 < args.length; i += 2) {
      BenchWav wav = BenchWav.read(Path.of(args[i]));
      BenchWav out = wav.copy();
      ThumpParameters p =
          new ThumpParameters(Double.parseDouble(System.getProperty("decibans", "11")), 350);
      Segmentation s = new ThumpStage(p).segmentation(wav.format());
      ThumpWorker worker = new ThumpWorker(new ThumpStage(p), wav.format());
      Path folder = Path.of(args[i + 1]);
      Files.createDirectories(folder);
      int n = (int) wav.frames();
      long t0 = System.nanoTime();
      try (PrintWriter csv = new PrintWriter(folder.resolve("edits.csv").toFile());
          PrintWriter log = new PrintWriter(folder.resolve("judged.txt").toFile())) {
        csv.println("start,end,channel,gap,gapFrames,statistic");
        for (int from = 0; from < n; from += s.segmentFrames()) {
          int end = Math.min(n, from + s.segmentFrames());
          int lo = Math.max(0, from - s.contextBefore());
          int hi = Math.min(n, end + s.contextAfter());
          double[][] x = new double[wav.samples().length][];
          for (int c = 0; c < x.length; c++) {
            x[c] = Arrays.copyOfRange(wav.samples()[c], lo, hi);
          }
          SegmentWindow w = new SegmentWindow(x, lo, hi - lo, from, end, n);
          for (Judged j : worker.judge(w)) {
            Thump t = j.thump();
            ThumpShape h = t.shape();
            ThumpEvidence e = j.evidence();
            ThumpGeometry g = ThumpGeometry.of(p, wav.format().sampleRateHz());
            log.printf(
                Locale.ROOT,
                "%d %.1f share %.3f drop %.0f chi %.2f vert %.3f bright %.1f level %.1f low %.1f ext %b f %.0f %.0f %.3f d %.3f amp %.4f%n",
                t.onsetFrame(g),
                j.decibans(),
                e.share(),
                e.drop(),
                (t.findings().energy() - e.drop()) / t.findings().count(),
                e.vertical(),
                e.brightness(),
                e.level(),
                e.lowest(),
                e.extreme(),
                h.startHz(),
                h.endHz(),
                h.glideSeconds(),
                h.decaySeconds(),
                t.amplitude(0));
          }
          for (Repair r : worker.repair(w)) {
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
            for (int k = 0; k < r.removed().length; k++) {
              out.samples()[r.channel()][(int) r.start() + k] -= r.removed()[k];
            }
          }
        }
        log.printf(
            Locale.ROOT,
            "# speed %.1f x (twice judged)%n",
            n / (double) wav.format().sampleRateHz() / ((System.nanoTime() - t0) * 1e-9));
      }
      out.write(folder.resolve("restored.wav"));
    }
  }
}
