package org.groovemend.playback;

import java.util.ArrayList;
import java.util.List;

/**
 * How near a digital curve comes to the analogue one, 20 Hz to 20 kHz or 0.4536 of the rate.
 *
 * @param mostErrorDb largest deviation of the magnitude
 * @param leadSamples delay that the analogue network has more, fitted above 200 Hz
 * @param mostPhaseDegrees largest deviation of the phase when that delay is taken off
 */
public record FilterFit(double mostErrorDb, double leadSamples, double mostPhaseDegrees) {
  private static final double LOW_HERTZ = 20;
  private static final double HIGH_HERTZ = 20_000;

  /** 20 kHz at 44.1 kHz. */
  private static final double TOP = 0.4536;

  private static final double FIT_HERTZ = 200;
  private static final int POINTS = 400;

  /** A frequency and by how much the digital phase leads there. */
  private record Lead(double hertz, double radians) {}

  /** Measures. */
  public static FilterFit of(PlaybackCurve curve, int sampleRateHz, double unityHertz) {
    RecursiveFilter filter = PlaybackFilter.design(curve, sampleRateHz, unityHertz).forward();
    List<Lead> leads = new ArrayList<>();
    double worst = 0;
    double product = 0;
    double square = 0;
    double octaves = StrictMath.log(Math.min(HIGH_HERTZ, TOP * sampleRateHz) / LOW_HERTZ);
    for (int i = 0; i <= POINTS; i++) {
      double hertz = LOW_HERTZ * StrictMath.exp(octaves * i / POINTS);
      double cycles = hertz / sampleRateHz;
      double error = filter.gainDb(cycles) - curve.gainDb(hertz, unityHertz);
      worst = Math.max(worst, Math.abs(error));
      double lead = Math.IEEEremainder(filter.phase(cycles) - curve.phase(hertz), 2 * Math.PI);
      leads.add(new Lead(hertz, lead));
      if (hertz > FIT_HERTZ) {
        product += lead * hertz;
        square += hertz * hertz;
      }
    }
    double slope = product / square;
    double phase = 0;
    for (Lead lead : leads) {
      phase = Math.max(phase, Math.abs(lead.radians() - slope * lead.hertz()));
    }
    return new FilterFit(worst, slope * sampleRateHz / (2 * Math.PI), StrictMath.toDegrees(phase));
  }
}
