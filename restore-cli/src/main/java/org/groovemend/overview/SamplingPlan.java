package org.groovemend.overview;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.groovemend.ledger.Sha256;

/**
 * How many sides are to be heard so that, if all of them are good, the collection can be trusted.
 *
 * <p>Acceptance sampling by attributes with acceptance number 0 and a limiting quality, lot by lot
 * (the case that ISO 2859-2 is for; the probabilities are the textbook's, D. C. Montgomery,
 * "Introduction to Statistical Quality Control", chapter on lot-by-lot acceptance sampling): of N
 * sides, D of which are bad, n drawn at random and without putting back hold no bad one with the
 * hypergeometric probability C(N - D, n) / C(N, n). The smallest n is taken for which that is at
 * most 1 - confidence. For large N it is ln(1 - confidence) / ln(1 - tolerated), rounded up.
 *
 * @param sides N, of which to draw
 * @param confidence between 0 and 1
 * @param tolerated share of bad sides that is still borne, between 0 and 1
 * @param bad D: the smallest number of bad sides that is more than is borne
 * @param heard n
 */
public record SamplingPlan(int sides, double confidence, double tolerated, int bad, int heard) {

  private static final String IF_ONE_IS_BAD =
      " If one is bad, this says nothing: find out why, treat again, draw with another seed.";

  /**
   * Makes a plan.
   *
   * @param confidence above 0, below 1
   * @param tolerated above 0, below 1
   */
  public static SamplingPlan of(int sides, double confidence, double tolerated) {
    if (!(confidence > 0 && confidence < 1 && tolerated > 0 && tolerated < 1) || sides < 0) {
      throw new IllegalArgumentException(
          "confidence " + confidence + ", tolerated " + tolerated + ", sides " + sides);
    }
    // a share of exactly p is what must be found, as in the formula for large collections
    int bad = (int) Math.min(sides, Math.max(1, Math.ceil(tolerated * sides - 1e-9)));
    double none = 1;
    int heard = 0;
    while (heard < sides && none > (1 - confidence) * (1 + 1e-12)) {
      none *= (sides - bad - heard) / (double) (sides - heard);
      heard++;
    }
    return new SamplingPlan(sides, confidence, tolerated, bad, heard);
  }

  /** The number for a collection without end. */
  public int heardOfMany() {
    return (int) Math.ceil(StrictMath.log(1 - confidence) / StrictMath.log(1 - tolerated) - 1e-9);
  }

  /**
   * Draws: each side gets the SHA-256 of seed and place, and those with the smallest are taken. So
   * the same collection and seed draw the same sides anywhere, and a side more changes little.
   *
   * @param places of all sides, all different
   * @return numbers of the sides drawn, in the order of the draw
   */
  public List<Integer> draw(List<String> places, long seed) {
    record Ticket(String digest, int number) {}
    List<Ticket> tickets = new ArrayList<>(places.size());
    for (int i = 0; i < places.size(); i++) {
      byte[] text = (seed + "\n" + places.get(i)).getBytes(java.nio.charset.StandardCharsets.UTF_8);
      tickets.add(new Ticket(Sha256.of(text), i));
    }
    return tickets.stream()
        .sorted(Comparator.comparing(Ticket::digest))
        .limit(heard)
        .map(Ticket::number)
        .toList();
  }

  /** The plan in a sentence. */
  public String sentence() {
    if (sides == 0) {
      return "No side is done, so there is nothing to draw from.";
    }
    if (heard == sides) {
      return String.format(
          Locale.ROOT,
          sides == 1
              ? "There is one side; hear it."
              : "Hear all %,d sides: of so few, no smaller draw would say with %s %% confidence that"
                  + " fewer than %s %% are bad.",
          sides,
          percent(confidence),
          percent(tolerated));
    }
    if (bad == 1) {
      return String.format(
          Locale.ROOT,
          "Hear these %,d of %,d sides, drawn at random. If none of them is bad, then with %s %%"
              + " confidence no side of the collection is bad: were there one, a draw without it"
              + " would have a probability of at most %s %%."
              + IF_ONE_IS_BAD,
          heard,
          sides,
          percent(confidence),
          percent(1 - confidence));
    }
    return String.format(
        Locale.ROOT,
        "Hear these %,d of %,d sides, drawn at random. If none of them is bad, then with %s %%"
            + " confidence fewer than %,d sides (%s %%) of the collection are bad: were there %,d"
            + " bad ones, a draw without any would have a probability of at most %s %%."
            + IF_ONE_IS_BAD,
        heard,
        sides,
        percent(confidence),
        bad,
        percent(tolerated),
        bad,
        percent(1 - confidence));
  }

  private static String percent(double share) {
    String text = String.format(Locale.ROOT, "%.4f", 100 * share);
    return text.replaceAll("\\.?0+$", "");
  }
}
