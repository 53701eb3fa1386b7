package org.groovemend.overview;

import java.util.Locale;
import java.util.Map;

/** What is compared between sides. */
enum Measure {
  REPAIRS(
      "repairs_per_minute",
      "Repairs a minute",
      "",
      true,
      0.1,
      1,
      "many repairs for its like (%s a minute): much worn, or music taken for damage",
      "few repairs for its like (%s a minute): hear whether clicks were left"),
  ON_BEAT(
      "repairs_on_onsets",
      "Repairs at note onsets, times chance",
      "",
      true,
      0.15,
      1,
      "repairs follow the beat: %s times as many at note onsets as by chance; music may be taken"
          + " for damage",
      null),
  NOISE(
      "noise_before_dbfs",
      "Noise floor of the transfer",
      "dBFS",
      false,
      1,
      1,
      "high noise floor for its like (%s dBFS)",
      "low noise floor for its like (%s dBFS): faded, gated, or copied from another medium?"),
  NOISE_TAKEN(
      "noise_lowered_db",
      "Noise floor lowered by",
      "dB",
      false,
      1,
      1,
      "noise was lowered much for its like (%s dB): hear whether ambience went with it",
      "noise was lowered little for its like (%s dB)"),
  REMOVED(
      "removed_below_side_db",
      "All that was removed, against the side",
      "dB",
      false,
      1,
      1,
      "much was taken away for its like (%s dB against the side): hear the removed signal",
      null),
  CHANNELS(
      "channel_difference_db",
      "Left channel less right",
      "dB",
      false,
      0.5,
      1,
      "the left channel is louder than is usual here (%s dB): balance, or a wall that is worn or"
          + " dead",
      "the right channel is louder than is usual here (%s dB): balance, or a wall that is worn or"
          + " dead"),
  LEFT_SHARE(
      "repairs_left_share",
      "Share of repairs on the left",
      "%",
      false,
      5,
      1,
      "%s %% of the repairs are on the left channel, more than is usual here",
      "%s %% of the repairs are on the left channel, fewer than is usual here"),
  LEVEL(
      "rms_dbfs",
      "Level of the transfer",
      "dBFS",
      false,
      1,
      0.5,
      "loud for its like (%s dBFS)",
      "quiet for its like (%s dBFS): gain, or an empty transfer"),
  LENGTH(
      "minutes",
      "Length",
      "min",
      true,
      0.1,
      0.5,
      "long for its like (%s min): two sides in one file?",
      "short for its like (%s min): broken off?");

  /** Beyond so many robust standard deviations a side is told: Iglewicz and Hoaglin 1993. */
  static final double LIMIT = 3.5;

  /** How often chance alone lets repairs be at onsets so often: about once in 700 sides. */
  private static final double LEAST_EVIDENCE = 3;

  private static final double MOST_WEIGHT = 5;

  private final String key;
  private final String title;
  private final String unit;
  private final boolean ratio;
  private final double leastSpread;
  private final double weight;
  private final String high;
  private final String low;

  /**
   * @param ratio compared by its logarithm: what counts is how many times as much
   * @param leastSpread below this, differences are of no matter however alike the others are; in
   *     the unit, or of the natural logarithm
   * @param weight in the sum that sides are ordered by
   * @param high sentence for a side above; null if that is nothing to tell
   * @param low the same below
   */
  Measure(
      String key,
      String title,
      String unit,
      boolean ratio,
      double leastSpread,
      double weight,
      String high,
      String low) {
    this.key = key;
    this.title = title;
    this.unit = unit;
    this.ratio = ratio;
    this.leastSpread = leastSpread;
    this.weight = weight;
    this.high = high;
    this.low = low;
  }

  /** Its name in tables. */
  String key() {
    return key;
  }

  String title() {
    return unit.isEmpty() ? title : title + ", " + unit;
  }

  double leastSpread() {
    return leastSpread;
  }

  /** Value on the scale on which sides are compared. */
  double scaled(double value) {
    // one more repair a minute is nothing beside none
    return ratio ? StrictMath.log(this == REPAIRS ? 1 + value : Math.max(value, 0.02)) : value;
  }

  /** Back from that scale. */
  double unscaled(double scaled) {
    return !ratio ? scaled : StrictMath.exp(scaled) - (this == REPAIRS ? 1 : 0);
  }

  /** What a row of the catalogue says of it, NaN if nothing. */
  double of(Map<String, Object> row) {
    return switch (this) {
      case REPAIRS -> number(row, "edits_per_minute");
      case ON_BEAT -> number(row, "repairs_on_onsets");
      case NOISE -> number(row, "noise_before_dbfs");
      case NOISE_TAKEN -> number(row, "noise_before_dbfs") - number(row, "noise_after_dbfs");
      case REMOVED -> number(row, "removed_dbfs") - number(row, "rms_dbfs");
      case CHANNELS -> number(row, "channel_difference_db");
      case LEFT_SHARE -> 100 * number(row, "edits_left_share");
      case LEVEL -> number(row, "rms_dbfs");
      case LENGTH -> number(row, "frames") / (60 * number(row, "rate_hz"));
    };
  }

  static double number(Map<String, Object> row, String column) {
    return row.get(column) instanceof Number number ? number.doubleValue() : Double.NaN;
  }

  /**
   * Whether a side so far from the others is told.
   *
   * @param usual median of its like, on the scale of comparison
   */
  boolean tells(double score, SideFigures side, double usual) {
    if (this == ON_BEAT && !(side.onsetEvidence() >= LEAST_EVIDENCE)) {
      return false;
    }
    if (this == REPAIRS
        && Math.abs(beyondChance(side.value(this), unscaled(usual), side.value(LENGTH))) <= LIMIT) {
      return false;
    }
    return score > LIMIT ? high != null : score < -LIMIT && low != null;
  }

  /**
   * How far a count of repairs is from the usual one, in standard deviations of chance: twice the
   * difference of the roots of counts (Anscombe 1948), so that one or two repairs of a short side
   * are nothing even where most sides have none.
   */
  private static double beyondChance(double aMinute, double usual, double minutes) {
    return 2
        * (StrictMath.sqrt(aMinute * minutes + 0.375) - StrictMath.sqrt(usual * minutes + 0.375));
  }

  /** What it adds to the sum. */
  double risk(double score) {
    return weight * Math.min(Math.abs(score) / LIMIT, MOST_WEIGHT);
  }

  String sentence(double score, double value) {
    return String.format(Locale.ROOT, score > 0 ? high : low, printed(value));
  }

  String printed(double value) {
    double size = Math.abs(value);
    return String.format(Locale.ROOT, size >= 100 ? "%.0f" : size >= 10 ? "%.1f" : "%.2f", value);
  }
}
