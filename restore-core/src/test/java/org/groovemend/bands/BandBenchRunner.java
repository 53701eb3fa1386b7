package org.groovemend.bands;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.simulate.BandedSides;

/**
 * Prints, as CSV, how cuts on invented sides agree with what is true. Not a test; the script of the
 * page on bands runs it. Arguments: first seed, number of sides, share of live joins.
 */
public final class BandBenchRunner {
  private BandBenchRunner() {}

  public static void main(String[] args) throws IOException {
    long first = Long.parseLong(args[0]);
    int sides = Integer.parseInt(args[1]);
    double live = Double.parseDouble(args[2]);
    BandedSides maker = new BandedSides(first);
    System.out.println("seed,words,joins,live,extra,rightAlone,rightListed,first,alone,listed");
    for (long seed = first; seed < first + sides; seed++) {
      BandedSides.Side side = maker.side(seed, live);
      BandTrial t = BandTrial.of(side, seed);
      System.out.println(
          seed
              + ","
              + side.words()
              + ","
              + t.joins()
              + ","
              + t.live()
              + ","
              + t.extra()
              + ","
              + t.rightAlone()
              + ","
              + t.rightListed()
              + ","
              + t.first()
              + ","
              + Arrays.toString(t.alone()).replace(",", "")
              + ","
              + Arrays.toString(t.listed()).replace(",", ""));
    }
  }
}
