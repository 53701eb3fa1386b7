package org.groovemend.plays;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.stat.regression.SimpleRegression;

/**
 * How a play lies against the reference.
 *
 * @param offsetSeconds of the play's own time, at the reference's first frame
 * @param ratio seconds of the play for one of the reference; above 1 if it ran slower
 * @param fromSeconds where both are there, of the reference
 * @param toSeconds where one ends
 * @param gains by channel: what brings it to the reference's level; negative for the opposite sense
 * @param likeness correlation of the waves in louder passages, -1 to 1
 * @param anchors passages that told the time map
 * @param followHertz how fast a swing of the speeds is followed
 * @param scatterSamples root mean square of the anchors about the map
 * @param doubtSamples median standard deviation of the map
 * @param swayPercent root mean square of the speed's departure from the ratio, percent
 * @param course the map's departure from offset and ratio along the side
 * @param curve the map itself
 */
public record PlayFinding(
    double offsetSeconds,
    double ratio,
    double fromSeconds,
    double toSeconds,
    List<Double> gains,
    double likeness,
    int anchors,
    double followHertz,
    double scatterSamples,
    double doubtSamples,
    double swayPercent,
    List<Moment> course,
    Curve curve) {
  private static final double STEP_SECONDS = 0.05;

  public PlayFinding {
    gains = List.copyOf(gains);
    course = List.copyOf(course);
  }

  /**
   * The map at a moment.
   *
   * @param seconds of the reference
   * @param delaySamples by which the play comes later than offset and ratio say
   * @param doubtSamples its standard deviation
   */
  public record Moment(double seconds, double delaySamples, double doubtSamples) {}

  /**
   * The departure as a cubic B-spline: at t seconds of the reference, x = (t - fromSeconds) /
   * knotSeconds, i the whole part of x and u the rest, the delay in seconds is (c[i] (1-u)^3 +
   * c[i+1] (3u^3 - 6u^2 + 4) + c[i+2] (3(1-u)^3 - 6(1-u)^2 + 4) + c[i+3] u^3) / 6.
   *
   * @param coefficients c
   */
  public record Curve(double fromSeconds, double knotSeconds, List<Double> coefficients) {
    public Curve {
      coefficients = List.copyOf(coefficients);
    }
  }

  static PlayFinding reference(int channels) {
    Double[] ones = new Double[channels];
    Arrays.fill(ones, 1.0);
    return new PlayFinding(0, 1, 0, 0, List.of(ones), 1, 0, 0, 0, 0, 0, List.of(), null);
  }

  /**
   * The alignment told as a straight line and what departs from it. Where the search began is of no
   * account: the line is the one that fits the whole map best.
   */
  static PlayFinding of(Alignment a, double[] gain, int rate) {
    SimpleRegression line = new SimpleRegression();
    for (double t = a.fromSeconds(); t < a.toSeconds(); t += STEP_SECONDS) {
      line.addData(t, a.delay().value(t));
    }
    double begin = line.getIntercept();
    double slope = line.getSlope();
    List<Moment> course = new ArrayList<>();
    double square = 0;
    double before = Double.NaN;
    for (double t = a.fromSeconds(); t < a.toSeconds(); t += STEP_SECONDS) {
      double delay = (a.delay().value(t) - begin - slope * t) / (1 + slope);
      course.add(new Moment(t, delay * rate, a.doubtSeconds(t) * rate));
      if (!Double.isNaN(before)) {
        double speed = (delay - before) / STEP_SECONDS;
        square += speed * speed;
      }
      before = delay;
    }
    // a spline of these coefficients is straight where they are, each at its own knot
    List<Double> coefficients = new ArrayList<>();
    double knot = a.delay().from() - SmoothCurve.KNOT_SECONDS;
    for (double c : a.delay().coefficients()) {
      coefficients.add((c - begin - slope * knot) / (1 + slope));
      knot += SmoothCurve.KNOT_SECONDS;
    }
    double[] doubts = course.stream().mapToDouble(Moment::doubtSamples).sorted().toArray();
    return new PlayFinding(
        a.offsetSeconds() + a.ratio() * begin,
        a.ratio() * (1 + slope),
        a.fromSeconds(),
        a.toSeconds(),
        Arrays.stream(gain).boxed().toList(),
        a.likeness(),
        a.anchors(),
        a.followHertz(),
        a.scatterSeconds() * rate,
        doubts[doubts.length / 2],
        100 * Math.sqrt(square / Math.max(1, course.size() - 1)),
        course,
        new Curve(a.delay().from(), SmoothCurve.KNOT_SECONDS, coefficients));
  }
}
