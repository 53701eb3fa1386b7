package org.groovemend.job.plays;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.job.side.Survey;
import org.groovemend.measure.Decibels;
import org.groovemend.measure.FrequencyWeighting;
import org.groovemend.plays.PlayFinding;
import org.groovemend.plays.PlaySurvey;

/**
 * What one play is among several. Levels are at the level of the reference.
 *
 * @param name of the file
 * @param noiseDba A-weighted noise that no other play has, dB re full scale
 * @param grooveDbfs level of its bare lead-in, which all plays of one disc share in part; NaN if
 *     none was found
 * @param clicksAloneAMinute places damaged in this play and not in all others, a minute
 * @param repairsAMinute clicks a minute that {@code restore} would repair; NaN if not asked
 * @param extentHertz centre of the highest third octave in which loud passages stand 3 dB over the
 *     play's own noise
 * @param loudExcessDb own noise from 2 to 10 kHz in loud passages over that in soft ones: much of
 *     it hints at distortion, mistracking or wear
 * @param alignment how it lies against the reference
 * @param noise own noise by third octave
 * @param minutes the same figures minute by minute
 * @param points sum of its places in the ranking by noise, clicks, extent and excess: least is best
 */
public record PlayMeasures(
    String name,
    double noiseDba,
    double grooveDbfs,
    double clicksAloneAMinute,
    double repairsAMinute,
    double extentHertz,
    double loudExcessDb,
    PlayFinding alignment,
    List<Band> noise,
    List<Minute> minutes,
    int points) {

  private static final double STANDS_OUT = 2;
  private static final double LOW_HERTZ = 2000;
  private static final double HIGH_HERTZ = 10_000;

  public PlayMeasures {
    noise = List.copyOf(noise);
    minutes = List.copyOf(minutes);
  }

  /**
   * A third octave.
   *
   * @param centreHertz its centre
   * @param dbfs mean square, dB re full scale
   */
  public record Band(double centreHertz, double dbfs) {}

  /**
   * A minute of the side.
   *
   * @param fromSeconds its begin, of the reference
   * @param noiseDba as of the whole
   * @param clicksAlone as of the whole, a minute
   * @param loudExcessDb as of the whole
   */
  public record Minute(
      double fromSeconds, double noiseDba, double clicksAlone, double loudExcessDb) {}

  static PlayMeasures of(OpenPlays plays, int play, double repairsAMinute) {
    PlaySurvey survey = plays.survey();
    int all = survey.passages();
    double gain = Math.abs(plays.set().findings().get(play).gains().get(0));
    Survey own = plays.facts(play);
    double[] noise = survey.ownNoise(play, 0, all, false);
    double[] level = survey.level(play, 0, all);
    double[] centres = survey.centresHertz();
    List<Band> bands = new ArrayList<>();
    double extent = 0;
    for (int b = 0; b < noise.length; b++) {
      bands.add(new Band(centres[b], Decibels.ofPower(noise[b])));
      if (level[b] > STANDS_OUT * noise[b]) {
        extent = centres[b];
      }
    }
    double measured = plays.set().toSeconds() - plays.set().fromSeconds();
    return new PlayMeasures(
        plays.name(play),
        dba(centres, noise),
        own.leadIn().found() ? own.leadIn().levelDbfs() + Decibels.ofAmplitude(gain) : Double.NaN,
        60 * alone(survey, play, 0, Double.POSITIVE_INFINITY, plays.set().rate()) / measured,
        repairsAMinute,
        extent,
        excess(survey, play, 0, all),
        plays.set().findings().get(play),
        bands,
        minutes(plays, play),
        0);
  }

  private static List<Minute> minutes(OpenPlays plays, int play) {
    PlaySurvey survey = plays.survey();
    double each = survey.passageSeconds();
    int some = (int) Math.max(1, Math.round(60 / each));
    List<Minute> minutes = new ArrayList<>();
    for (int n = 0; n < survey.passages(); n += some) {
      int end = Math.min(survey.passages(), n + some);
      if (survey.measured(n, end) == 0) {
        continue;
      }
      double from = n * each;
      double to = Math.min(end * each, plays.set().toSeconds());
      minutes.add(
          new Minute(
              from,
              dba(survey.centresHertz(), survey.ownNoise(play, n, end, false)),
              60 * alone(survey, play, from, to, plays.set().rate()) / (to - from),
              excess(survey, play, n, end)));
    }
    return minutes;
  }

  private static double dba(double[] centres, double[] power) {
    double sum = 0;
    for (int b = 0; b < power.length; b++) {
      sum += power[b] * StrictMath.pow(10, FrequencyWeighting.A.decibels(centres[b]) / 10);
    }
    return Decibels.ofPower(sum);
  }

  private static double alone(PlaySurvey survey, int play, double from, double to, int rate) {
    return survey.places().stream()
        .filter(p -> !p.everywhere() && (p.damaged() >> play & 1) == 1)
        .filter(p -> p.start() >= from * rate && p.start() < to * rate)
        .count();
  }

  private static double excess(PlaySurvey survey, int play, int from, int to) {
    double[] soft = survey.ownNoise(play, from, to, false);
    double[] loud = survey.ownNoise(play, from, to, true);
    double[] centres = survey.centresHertz();
    double below = 0;
    double above = 0;
    for (int b = 0; b < soft.length; b++) {
      if (centres[b] >= LOW_HERTZ && centres[b] <= HIGH_HERTZ) {
        below += soft[b];
        above += loud[b];
      }
    }
    return below > 0 ? Decibels.ofPower(above / below) : 0;
  }

  PlayMeasures withPoints(int sum) {
    return new PlayMeasures(
        name,
        noiseDba,
        grooveDbfs,
        clicksAloneAMinute,
        repairsAMinute,
        extentHertz,
        loudExcessDb,
        alignment,
        noise,
        minutes,
        sum);
  }
}
