package org.groovemend.stage;

import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.AudioFormat;

/** Runs a stage over arrays, segment by segment, on one worker. */
public final class TreatedArrays {
  private TreatedArrays() {}

  /**
   * @param x 24-bit PCM by channel
   * @param segment frames
   * @param notes receives what the worker noted
   */
  public static double[][] inSegments(
      SignalStage stage, int rate, double[][] x, int segment, List<StageNote> notes) {
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
      notes.addAll(worker.notes());
      for (int c = 0; c < x.length; c++) {
        System.arraycopy(out[c], 0, y[c], s, e - s);
      }
    }
    return y;
  }
}
