package org.groovemend.click;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.Segmentation;

/**
 * The crackle pass: click repair once more over the repaired side, whose models now know less
 * damage, with less evidence asked of each place.
 */
public final class CrackleStage implements RepairStage {
  /** Less than for clicks: what is taken away here is small. */
  private static final double LEAST_EVIDENCE = -1;

  private final CrackleParameters parameters;
  private final ClickStage stage;

  public CrackleStage(
      CrackleParameters parameters, ClickCalibration calibration, CaptureCurve captured) {
    this.parameters = parameters;
    this.stage = new ClickStage(parameters.asClicks(), calibration, captured);
  }

  /**
   * Sets the thresholds from the side as click repair leaves it.
   *
   * @throws IOException if the side cannot be read
   */
  public static ClickCalibration analyse(
      RangeReader side, CrackleParameters parameters, CaptureCurve captured, Crew crew)
      throws IOException {
    return ClickAnalyser.thresholds(side, parameters.asClicks(), captured, LEAST_EVIDENCE, crew);
  }

  @Override
  public CrackleParameters parameters() {
    return parameters;
  }

  @Override
  public Segmentation segmentation(AudioFormat format) {
    return stage.segmentation(format);
  }

  @Override
  public boolean neutral() {
    return parameters.isNeutral();
  }

  @Override
  public Worker open(AudioFormat format) {
    return stage.open(format);
  }
}
