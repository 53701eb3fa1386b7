package org.groovemend.rumble;

import java.util.ArrayList;
import org.groovemend.stage.SignalStage;
import org.groovemend.stage.TreatedArrays;

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
    return TreatedArrays.inSegments(stage, rate, x, segment, new ArrayList<>());
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
