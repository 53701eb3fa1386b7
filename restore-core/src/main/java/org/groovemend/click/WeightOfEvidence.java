package org.groovemend.click;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * Natural logarithm of the odds of damage against music, at equal odds beforehand: a bias and one
 * weight per trait, read from piecewise linear curves (Good 1950, "Probability and the weighing of
 * evidence"; the curves are this project's own, fitted by logistic regression to candidates of
 * undamaged and of artificially damaged sound). One table serves sides of two differing channels,
 * one every other side; two more, fitted to sharp and pulsed sound as well, serve where that is
 * heard: lips, reeds and voices give pulses that single traits cannot tell from clicks.
 *
 * <p>The curves are in {@code evidence.csv} beside this class: model, trait, value of the trait,
 * weight there; constant beyond the ends.
 */
final class WeightOfEvidence {
  private static final String TABLE = "evidence.csv";

  /** Natural logarithm of twenty. */
  private static final double CLEAR = 3;

  private static final double LITTLE_LEFT = 0.4;

  /** Logarithm of the two shares' ratio, less half a neper for the few examples. */
  private static final double CLEAR_LOG_ODDS = 3;

  private static final WeightOfEvidence STEREO = read("stereo");
  private static final WeightOfEvidence MONO = read("mono");
  private static final WeightOfEvidence PULSED_STEREO = read("pulsed-stereo");
  private static final WeightOfEvidence PULSED_MONO = read("pulsed-mono");

  private final double bias;
  private final double[][] at;
  private final double[][] weight;

  private WeightOfEvidence(double bias, double[][] at, double[][] weight) {
    this.bias = bias;
    this.at = at;
    this.weight = weight;
  }

  /** For sides whose channels differ. */
  static WeightOfEvidence stereo() {
    return STEREO;
  }

  /** For one channel alone. */
  static WeightOfEvidence mono() {
    return MONO;
  }

  /** As {@link #stereo} where the sound itself comes in pulses ({@link PulseTrain}). */
  static WeightOfEvidence pulsedStereo() {
    return PULSED_STEREO;
  }

  /** As {@link #mono} where the sound itself comes in pulses. */
  static WeightOfEvidence pulsedMono() {
    return PULSED_MONO;
  }

  /**
   * @param traits by ordinal of {@link Trait}
   */
  double logOdds(double[] traits) {
    double sum = bias;
    for (int i = 0; i < at.length; i++) {
      if (at[i].length > 0) {
        sum += interpolate(at[i], weight[i], traits[i]);
      }
    }
    return sum;
  }

  /**
   * Log odds from one conjunction that a sum of single weights cannot express: a place twenty times
   * louder than the 12 ms about it, whose fill explains twenty times what it leaves, and leaves no
   * more than usual. Among the examples of the fit 3,715 places of damage were so, and 107 of
   * undamaged sound, 78 of them claps of applause; {@code -infinity} for every other place.
   */
  static double standingClear(double[] traits) {
    boolean clear =
        traits[Trait.LOCAL_LEVEL.ordinal()] > CLEAR
            && traits[Trait.SHARE.ordinal()] > CLEAR
            && traits[Trait.REMAINDER.ordinal()] < LITTLE_LEFT;
    return clear ? CLEAR_LOG_ODDS : Double.NEGATIVE_INFINITY;
  }

  private static double interpolate(double[] at, double[] weight, double x) {
    int last = at.length - 1;
    if (!(x > at[0])) {
      return weight[0];
    }
    if (x >= at[last]) {
      return weight[last];
    }
    int i = 1;
    while (at[i] < x) {
      i++;
    }
    double share = (x - at[i - 1]) / (at[i] - at[i - 1]);
    return weight[i - 1] + share * (weight[i] - weight[i - 1]);
  }

  private static WeightOfEvidence read(String model) {
    double bias = 0;
    List<List<double[]>> curves = new ArrayList<>();
    for (int i = 0; i < Trait.COUNT; i++) {
      curves.add(new ArrayList<>());
    }
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                WeightOfEvidence.class.getResourceAsStream(TABLE), StandardCharsets.US_ASCII))) {
      in.readLine();
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        String[] cell = line.split(",", -1);
        if (!cell[0].equals(model)) {
          continue;
        }
        if (cell[1].equals("bias")) {
          bias = Double.parseDouble(cell[3]);
        } else {
          double[] point = {Double.parseDouble(cell[2]), Double.parseDouble(cell[3])};
          curves.get(Trait.valueOf(cell[1]).ordinal()).add(point);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    double[][] at = new double[Trait.COUNT][];
    double[][] weight = new double[Trait.COUNT][];
    for (int i = 0; i < Trait.COUNT; i++) {
      at[i] = curves.get(i).stream().mapToDouble(p -> p[0]).toArray();
      weight[i] = curves.get(i).stream().mapToDouble(p -> p[1]).toArray();
    }
    return new WeightOfEvidence(bias, at, weight);
  }
}
