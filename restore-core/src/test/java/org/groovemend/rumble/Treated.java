package org.groovemend.rumble;

import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;

/** Runs a stage over arrays. */
final class Treated {
  private Treated() {}

  static final RumbleFinding BOTH = finding(true, true);

  static RumbleFinding finding(boolean low, boolean vertical) {
    return new RumbleFinding(0, 0, 20, 80, 0, 0, 0, low, vertical, "");
  }

  static double[][] whole(SignalStage stage, int rate, double[][] x) {
    return inSegments(stage, rate, x, Math.max(1, x[0].length));
  }

  static double[][] inSegments(SignalStage stage, int rate, double[][] x, int segment) {
    AudioFormat format = AudioFormat.pcm(rate, x.length, 24);
    Segmentation cut = stage.segmentation(format);
    SignalStage.Worker worker = stage.open(format);
    int frames = x[0].length;
    double[][] y = new double[x.length][frames];
    for (int s = 0; s < frames; s += segment) {
      int e = Math.min(frames, s + segment);
      int from = Math.max(0, s - cut.contextBefore());
      int to = Math.min(frames, e + cut.contextAfter());
      double[][] window = new double[x.length][];
      double[][] out = new double[x.length][e - s];
      for (int c = 0; c < x.length; c++) {
        window[c] = Arrays.copyOfRange(x[c], from, to);
      }
      worker.treat(new SegmentWindow(window, from, to - from, s, e, frames), out);
      for (int c = 0; c < x.length; c++) {
        System.arraycopy(out[c], 0, y[c], s, e - s);
      }
    }
    return y;
  }

  static double rms(double[] x, int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += x[i] * x[i];
    }
    return Math.sqrt(sum / (to - from));
  }

  static double[] tone(int frames, int rate, double hertz, double size) {
    double[] x = new double[frames];
    for (int i = 0; i < frames; i++) {
      x[i] = size * StrictMath.sin(2 * Math.PI * hertz * i / rate + 0.3);
    }
    return x;
  }
}
