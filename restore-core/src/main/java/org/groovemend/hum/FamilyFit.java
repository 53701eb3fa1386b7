package org.groovemend.hum;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.groovemend.signal.robust.Median;

/**
 * What of one family is taken out, and why.
 *
 * @param model what is subtracted, at the low rate
 * @param family the same in words and figures
 * @param energy mean square of all its lines and channels
 */
record FamilyFit(HumModel model, HumFinding.Family family, double energy) {
  /** Share of the side's low band from which one line is the programme itself, a test tone. */
  private static final double TONE_SHARE = 0.999;

  /** Largest step of an amplitude from knot to knot, share of its square. */
  private static final double FREEST = 0.01;

  /**
   * Judges a family.
   *
   * @param rate samples a second of the track's unit of time
   * @param judged the lines of the family
   */
  static FamilyFit of(double mains, PhaseTrack track, double rate, JudgedLines judged) {
    int knots = track.cycles().length;
    double perSecond = rate / track.hop();
    double mean = (track.cycles()[knots - 1] - track.cycles()[0]) / (knots - 1) * perSecond;
    List<HumModel.Line> taken = new ArrayList<>();
    List<HumFinding.Line> told = new ArrayList<>();
    double energy = 0;
    for (int c = 0; c < judged.series().length; c++) {
      for (int k = 0; k < judged.series()[c].length; k++) {
        LineEvidence e = judged.evidence()[c][k];
        if (e == null) {
          continue;
        }
        LineSeries series = judged.series()[c][k];
        Smoothed s = Smoothed.of(series, e.trust(), e.level(), FREEST, 0);
        HumModel.Line line = HumModel.Line.cautious(c, k + 1, s, series);
        double[] power = new double[knots];
        for (int j = 0; j < knots; j++) {
          power[j] = line.power(j);
          energy += power[j] / 2 / knots;
        }
        double middle = median(power);
        if (middle > 0) {
          taken.add(line);
          told.add(
              new HumFinding.Line(
                  c,
                  k + 1,
                  (k + 1) * mean,
                  10 * StrictMath.log10(middle),
                  10 * StrictMath.log10(middle / median(series.floor())),
                  e.decibans(),
                  e.seen(),
                  e.missing()));
        }
      }
    }
    if (taken.isEmpty()) {
      return null;
    }
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    for (int j = 0; j < knots; j++) {
      least = Math.min(least, track.slope(j) * perSecond);
      most = Math.max(most, track.slope(j) * perSecond);
    }
    return new FamilyFit(
        new HumModel(track, taken),
        new HumFinding.Family(mains, mean, least, most, 1 / perSecond, told),
        energy);
  }

  /** Whether one multiple is all that there is. */
  boolean isTestTone(double energyOfTheSide) {
    double one = 0;
    double all = 0;
    for (HumFinding.Line line : family.lines()) {
      double power = StrictMath.pow(10, line.levelDbfs() / 10);
      all += power;
      one += line.harmonic() == strongest().harmonic() ? power : 0;
    }
    return one > TONE_SHARE * all && energy > TONE_SHARE * energyOfTheSide;
  }

  HumFinding.Line strongest() {
    return family.lines().stream()
        .max(Comparator.comparingDouble(HumFinding.Line::levelDbfs))
        .orElseThrow();
  }

  private static double median(double[] x) {
    return Median.of(x.clone(), 0, x.length);
  }
}
