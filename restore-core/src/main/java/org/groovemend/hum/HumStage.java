package org.groovemend.hum;

import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;

/** Takes out the hum that the analyser found. */
public final class HumStage implements SignalStage {
  private static final int SEGMENT = 1 << 18;

  /** Zeros on both sides of a sample that tell it is digital silence, where there is no hum. */
  private static final int SILENCE = 32;

  private final HumParameters parameters;
  private final HumFinding finding;
  private final List<HumModel> models;

  HumStage(HumParameters parameters, HumFinding finding, List<HumModel> models) {
    this.parameters = parameters;
    this.finding = finding;
    this.models = List.copyOf(models);
  }

  @Override
  public HumParameters parameters() {
    return parameters;
  }

  public HumFinding finding() {
    return finding;
  }

  @Override
  public Segmentation segmentation(AudioFormat format) {
    return new Segmentation(SEGMENT, SILENCE, SILENCE);
  }

  /** True also if no hum was found. */
  @Override
  public boolean neutral() {
    return models.isEmpty();
  }

  @Override
  public Worker open(AudioFormat format) {
    List<Oscillators> oscillators =
        models.stream().map(model -> new Oscillators(model, format.channels())).toList();
    return (window, out) -> treat(oscillators, window, out);
  }

  private static void treat(List<Oscillators> oscillators, SegmentWindow window, double[][] out) {
    int from = window.startIndex();
    int count = window.endIndex() - from;
    for (int c = 0; c < out.length; c++) {
      System.arraycopy(window.samples()[c], from, out[c], 0, count);
    }
    for (Oscillators each : oscillators) {
      each.subtract(out, 0, window.segmentStart(), count);
    }
    for (int c = 0; c < out.length; c++) {
      keepSilence(window.samples()[c], window.length(), from, count, out[c]);
    }
  }

  private static void keepSilence(double[] in, int length, int from, int count, double[] out) {
    int ahead = Math.max(0, from - SILENCE);
    int sounding = Integer.MIN_VALUE;
    for (int i = from; i < from + count; i++) {
      for (int to = Math.min(length, i + SILENCE + 1); ahead < to; ahead++) {
        sounding = in[ahead] != 0 ? ahead : sounding;
      }
      if (sounding < i - SILENCE) {
        out[i - from] = in[i];
      }
    }
  }
}
