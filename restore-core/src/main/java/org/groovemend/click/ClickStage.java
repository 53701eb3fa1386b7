package org.groovemend.click;

import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.Segmentation;

/** Finds clicks and fills them, leaving every other sample as it is. */
public final class ClickStage implements RepairStage {
  private final ClickParameters parameters;
  private final ClickCalibration calibration;
  private final CaptureCurve captured;

  public ClickStage(
      ClickParameters parameters, ClickCalibration calibration, CaptureCurve captured) {
    this.parameters = parameters;
    this.calibration = calibration;
    this.captured = captured;
  }

  @Override
  public ClickParameters parameters() {
    return parameters;
  }

  /** The thresholds in force. */
  public ClickCalibration calibration() {
    return calibration;
  }

  @Override
  public Segmentation segmentation(AudioFormat format) {
    ClickGeometry g = ClickGeometry.of(parameters, format.sampleRateHz());
    int context = g.context(format.sampleRateHz());
    return new Segmentation(256 * g.hop(), context, context);
  }

  @Override
  public boolean neutral() {
    return parameters.isNeutral();
  }

  @Override
  public Worker open(AudioFormat format) {
    return new ClickWorker(parameters, calibration, captured, format);
  }
}
