package org.groovemend.click;

import org.groovemend.signal.interval.RateInterval;

/**
 * False alarms to be expected, all channels together: the mean of two estimates, since on undamaged
 * sound the odds promise too few and the tail too many.
 *
 * @param perMinute the mean
 * @param low of the 95 % interval of that rate, as far as the stretch looked at can tell: a rate
 *     from a count has the spread of a count; 0 if fewer than half an alarm is to be expected there
 * @param high of the same
 * @param ofOddsPerMinute what the odds of the places themselves promise
 * @param ofTailPerMinute what the fitted tail of undamaged sound has above the thresholds
 */
public record ClickAlarms(
    double perMinute, double low, double high, double ofOddsPerMinute, double ofTailPerMinute) {
  static ClickAlarms of(double ofOddsPerMinute, double ofTailPerMinute, double minutes) {
    double perMinute = 0.5 * (ofOddsPerMinute + ofTailPerMinute);
    RateInterval interval = RateInterval.gamma(perMinute * minutes, minutes);
    double low = perMinute * minutes < 0.5 ? 0 : interval.low();
    return new ClickAlarms(perMinute, low, interval.high(), ofOddsPerMinute, ofTailPerMinute);
  }
}
