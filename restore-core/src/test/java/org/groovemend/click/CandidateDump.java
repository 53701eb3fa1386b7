package org.groovemend.click;

import java.io.PrintWriter;
import java.nio.file.Path;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.SegmentWindow;

/** Bench tool: writes every candidate of a file as a line of numbers. */
final class CandidateDump {
  private CandidateDump() {}

  public static void main(String[] args) throws Exception {
    BenchWav wav = BenchWav.read(Path.of(args[0]));
    CaptureCurve captured = CaptureCurve.of(args[2]);
    ClickGeometry g = ClickGeometry.of(ClickParameters.defaults(), wav.format().sampleRateHz());
    ClickDetector detector =
        new ClickDetector(g, RepairDomain.of(captured, wav.format().sampleRateHz()), wav.format());
    int n = (int) wav.frames();
    detector.load(new SegmentWindow(wav.samples(), 0, n, 0, n, n));
    try (PrintWriter out = new PrintWriter(args[1])) {
      for (int c = 0; c < wav.samples().length; c++) {
        for (Candidate k : detector.candidates(c, 0, n)) {
          StringBuilder line = new StringBuilder();
          line.append(k.start())
              .append(' ')
              .append(k.length())
              .append(' ')
              .append(c)
              .append(' ')
              .append((float) k.logOdds());
          for (double v : k.traits()) {
            line.append(' ').append((float) v);
          }
          out.println(line);
        }
      }
    }
  }
}
