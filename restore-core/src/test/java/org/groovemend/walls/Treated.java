package org.groovemend.walls;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.SignalStage;
import org.groovemend.stage.StageNote;
import org.groovemend.stage.TreatedArrays;

/** Runs a stage over arrays. */
final class Treated {
  private Treated() {}

  static double[][] whole(SignalStage stage, int rate, double[][] x, List<StageNote> notes) {
    int segment = stage.segmentation(AudioFormat.pcm(rate, x.length, 24)).segmentFrames();
    return TreatedArrays.inSegments(stage, rate, x, segment, notes);
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
