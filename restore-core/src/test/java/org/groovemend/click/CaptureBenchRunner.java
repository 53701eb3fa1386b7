package org.groovemend.click;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/**
 * Bench tool: what the clicks of each case say about the capture curve. Arguments: output file,
 * then WAV files, or folders of cases with damaged.wav.
 */
final class CaptureBenchRunner {
  private CaptureBenchRunner() {}

  public static void main(String[] args) throws Exception {
    try (PrintWriter out = new PrintWriter(args[0])) {
      for (int i = 1; i < args.length; i++) {
        Path path = Path.of(args[i]);
        BenchWav wav = BenchWav.read(Files.isDirectory(path) ? path.resolve("damaged.wav") : path);
        long begun = System.nanoTime();
        CaptureFinding f = CaptureAnalyser.analyse(wav, ClickParameters.defaults());
        out.printf(
            Locale.ROOT,
            "%s %s %.1f %.1f %d %d %d %.1f %.2f%n",
            path.getFileName(),
            f.verdict(),
            f.decibans(),
            f.certainDecibans(),
            f.clicks(),
            f.forCurve(),
            f.forFlat(),
            f.analysedSeconds(),
            (System.nanoTime() - begun) / 1e9);
        out.flush();
      }
    }
  }
}
