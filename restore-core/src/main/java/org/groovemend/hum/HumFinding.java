package org.groovemend.hum;

import java.util.List;
import java.util.Locale;

/**
 * What hum was found; goes into the ledger.
 *
 * @param families those of which something is taken out
 * @param reason a sentence for people: what was found, or why nothing is taken
 */
public record HumFinding(List<Family> families, String reason) {

  /**
   * @param mainsHertz 50 or 60
   * @param meanHertz frequency of the fundamental, mean over the side
   * @param lowestHertz least at any moment
   * @param highestHertz most at any moment
   * @param secondsPerKnot distance of the moments at which frequency and amplitudes were followed
   * @param lines that are taken out
   */
  public record Family(
      double mainsHertz,
      double meanHertz,
      double lowestHertz,
      double highestHertz,
      double secondsPerKnot,
      List<Line> lines) {}

  /**
   * @param channel 0 based
   * @param harmonic 1 for the fundamental
   * @param hertz mean frequency
   * @param levelDbfs median amplitude of what is taken out, dB re full scale
   * @param overFloorDb the line's power over that of its neighbourhood in windows of one second,
   *     median, dB
   * @param decibans weight of evidence
   * @param momentsSeen moments at which it would stand out
   * @param momentsMissing of these, moments at which it did not
   */
  public record Line(
      int channel,
      int harmonic,
      double hertz,
      double levelDbfs,
      double overFloorDb,
      double decibans,
      int momentsSeen,
      int momentsMissing) {}

  public boolean found() {
    return !families.isEmpty();
  }

  /** Mean square of what is taken out over all channels, dB re that of a constant 1.0. */
  public double meanSquareDbfs(int channels) {
    double sum = 0;
    for (Family family : families) {
      for (Line line : family.lines()) {
        sum += StrictMath.pow(10, line.levelDbfs() / 10) / 2 / channels;
      }
    }
    return 10 * StrictMath.log10(sum);
  }

  /** The most that the lines of one channel can add up to, dB re full scale. */
  public double peakDbfs() {
    double most = 0;
    int channels =
        1
            + families.stream()
                .flatMap(f -> f.lines().stream())
                .mapToInt(Line::channel)
                .max()
                .orElse(0);
    for (int c = 0; c < channels; c++) {
      double sum = 0;
      for (Family family : families) {
        for (Line line : family.lines()) {
          sum += line.channel() == c ? StrictMath.pow(10, line.levelDbfs() / 20) : 0;
        }
      }
      most = Math.max(most, sum);
    }
    return 20 * StrictMath.log10(most);
  }

  static HumFinding none(String reason) {
    return new HumFinding(List.of(), reason);
  }

  static String inWords(Family f) {
    int most = f.lines().stream().mapToInt(Line::harmonic).max().orElse(0);
    double level =
        f.lines().stream().mapToDouble(Line::levelDbfs).max().orElse(Double.NEGATIVE_INFINITY);
    return String.format(
        Locale.ROOT,
        "Hum at %.2f Hz (%.2f to %.2f) with %d lines up to the %s, the loudest at %.0f dBFS",
        f.meanHertz(),
        f.lowestHertz(),
        f.highestHertz(),
        f.lines().size(),
        most == 1 ? "fundamental" : most + suffix(most) + " multiple",
        level);
  }

  private static String suffix(int n) {
    return n == 2 ? "nd" : n == 3 ? "rd" : "th";
  }
}
