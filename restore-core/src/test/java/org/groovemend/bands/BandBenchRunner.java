package org.groovemend.bands;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.simulate.BandedSides;
import org.groovemend.stage.ArrayRanges;

/**
 * Prints, as CSV, how gaps found on invented sides agree with what is true. Not a test; the script
 * of the page on bands runs it. Arguments: first seed, number of sides, share of live joins.
 */
public final class BandBenchRunner {
  private BandBenchRunner() {}

  public static void main(String[] args) throws IOException {
    long first = Long.parseLong(args[0]);
    int sides = Integer.parseInt(args[1]);
    double live = Double.parseDouble(args[2]);
    BandedSides maker = new BandedSides(Long.getLong("pool", first));
    for (int k = 0; k < sides; k++) {
      long t0 = System.nanoTime();
      BandedSides.Side side = maker.side(first + k, live);
      long t1 = System.nanoTime();
      BandSurvey survey =
          BandSurvey.of(ArrayRanges.of(BandedSides.RATE, side.samples()), done -> {});
      long t2 = System.nanoTime();
      StringBuilder line = new StringBuilder();
      line.append(first + k).append(" [").append(side.words()).append("] ");
      line.append(
          String.format(
              Locale.ROOT,
              "first %+.3f last %+.3f ",
              s(survey.musicStart() - side.first()),
              s(survey.musicEnd() - side.last())));
      List<Gap> gaps = new ArrayList<>(survey.gaps());
      for (BandedSides.Join join : side.joins()) {
        Gap best = null;
        for (Gap g : gaps) {
          if (best == null
              || Math.abs(g.endFrame() - join.onset()) < Math.abs(best.endFrame() - join.onset())) {
            best = g;
          }
        }
        if (best != null && Math.abs(s(best.endFrame() - join.onset())) < 1) {
          gaps.remove(best);
          line.append(
              String.format(
                  Locale.ROOT,
                  "| %s%.1f s: end %+.3f onset %+.3f c %.2f ",
                  join.live() ? "LIVE " : "",
                  s(join.onset() - join.end()),
                  s(best.startFrame() - join.end()),
                  s(best.endFrame() - join.onset()),
                  best.confidence()));
        } else {
          line.append(
              String.format(
                  Locale.ROOT,
                  "| %s%.1f s at %.2f MISSED ",
                  join.live() ? "LIVE " : "",
                  s(join.onset() - join.end()),
                  s(join.onset())));
        }
      }
      for (Gap g : gaps) {
        line.append(
            String.format(
                Locale.ROOT,
                "| EXTRA %.2f-%.2f c %.2f heard %.2f %s",
                s(g.startFrame()),
                s(g.endFrame()),
                g.confidence(),
                side.shareHeard(g.startFrame(), g.endFrame()),
                g.reason()));
      }
      line.append(
          String.format(
              Locale.ROOT,
              "| %s  (made %d ms, heard %d ms)",
              survey.basis(),
              (t1 - t0) / 1000000,
              (t2 - t1) / 1000000));
      System.out.println(line);
      if (args.length > 3) {
        for (BandedSides.Join j : side.joins()) {
          StringBuilder b = new StringBuilder();
          for (int i = (int) (j.onset() / 256) - 20; i < j.onset() / 256 + 150; i += 4)
            b.append(Math.round(side.heard()[i])).append(" ");
          System.out.println(b);
        }
      }
    }
  }

  private static double s(long frames) {
    return frames / (double) BandedSides.RATE;
  }
}
