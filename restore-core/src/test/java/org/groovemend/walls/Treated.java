package org.groovemend.walls;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;
import org.groovemend.stage.StageNote;

/** Runs a stage over arrays. */
final class Treated {
  private Treated() {}

  static double[][] whole(SignalStage stage, int rate, double[][] x, List<StageNote> notes) {
    AudioFormat format = AudioFormat.pcm(rate, x.length, 24);
    Segmentation cut = stage.segmentation(format);
    SignalStage.Worker worker = stage.open(format);
    int frames = x[0].length;
    double[][] y = new double[x.length][frames];
    for (int s = 0; s < frames; s += cut.segmentFrames()) {
      int e = Math.min(frames, s + cut.segmentFrames());
      int from = Math.max(0, s - cut.contextBefore());
      int to = Math.min(frames, e + cut.contextAfter());
      double[][] window = new double[x.length][];
      double[][] out = new double[x.length][e - s];
      for (int c = 0; c < x.length; c++) {
        window[c] = Arrays.copyOfRange(x[c], from, to);
      }
      worker.treat(new SegmentWindow(window, from, to - from, s, e, frames), out);
      notes.addAll(worker.notes());
      for (int c = 0; c < x.length; c++) {
        System.arraycopy(out[c], 0, y[c], s, e - s);
      }
    }
    return y;
  }

  static double[][] whole(SignalStage stage, int rate, double[][] x) {
    return whole(stage, rate, x, new ArrayList<>());
  }

  /** Power of a - b in dB, the first and last half second left out. */
  static double differenceDb(double[] a, double[] b, int rate) {
    double sum = 0;
    for (int i = rate / 2; i < a.length - rate / 2; i++) {
      sum += (a[i] - b[i]) * (a[i] - b[i]);
    }
    return 10 * Math.log10(sum / (a.length - rate));
  }
}
