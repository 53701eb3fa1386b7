package org.groovemend.playback;

import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;

/**
 * Takes back the curve of the capture, applies that of the disc, sets the gain. Every segment
 * begins at rest so far before itself that what was left out counts for less than 1e-12.
 */
public final class CurveStage implements SignalStage {
  private static final int SEGMENT = 1 << 18;

  private final CurveParameters parameters;

  public CurveStage(CurveParameters parameters) {
    this.parameters = parameters;
  }

  @Override
  public CurveParameters parameters() {
    return parameters;
  }

  @Override
  public Segmentation segmentation(AudioFormat format) {
    int context = new CurveChange(parameters, format.sampleRateHz()).settlingFrames();
    return new Segmentation(Math.max(SEGMENT, Integer.highestOneBit(2 * context)), context, 0);
  }

  @Override
  public boolean neutral() {
    return parameters.isNeutral();
  }

  @Override
  public Worker open(AudioFormat format) {
    return new Work(new CurveChange(parameters, format.sampleRateHz()));
  }

  private static final class Work implements Worker {
    private final CurveChange change;
    private double[] a = new double[0];
    private double[] b = new double[0];

    Work(CurveChange change) {
      this.change = change;
    }

    @Override
    public void treat(SegmentWindow w, double[][] out) {
      if (a.length < w.endIndex()) {
        a = new double[w.endIndex()];
        b = new double[w.endIndex()];
      }
      for (int c = 0; c < w.channels(); c++) {
        change.apply(w.samples()[c], w.startIndex(), w.endIndex(), a, b, out[c]);
      }
    }
  }
}
