package org.groovemend.rotation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Tells the period of the turntable from ticks.
 *
 * <p>Rows of ticks at equal distances are sorted by distance. A stretch of periods, {@value #WIDE}
 * either way, is judged by its k most surprising rows that share no tick: random ticks show at
 * least k such with the probability of a Poisson variable whose mean is the number expected. The
 * least of these probabilities over k, stretches and the two choices of ticks is multiplied by how
 * many were tried; half of the trust goes to the stretches at nominal speeds, half to all.
 */
public final class RotationSearch {

  /** Turns a minute looked at, slowest and fastest. */
  public static final double SLOWEST_RPM = 15;

  public static final double FASTEST_RPM = 100;

  /** Half width of a stretch of periods, as a share: scratches drift. */
  private static final double WIDE = 0.003;

  /** All ticks that were kept, and only the strongest: scratches are. */
  private static final int[] A_SECOND = {TickGatherer.A_SECOND, 6};

  private static final int[] COUNTS = {1, 2, 3, 4, 6, 8, 12, 16, 24, 32};
  private static final int STRETCHES_JUDGED = 40;
  private static final double CHANCE_OF_A_SCRATCH = 0.05;
  private static final int FEWEST_TICKS = 5;
  private static final double LEAST_LOG = -700;

  private static final int MOST_PARTS = 4;
  private static final double NEARLY_EMPTY = 0.1;

  /** A chance of one in a million. */
  private static final double CERTAIN_LOG = -13.8;

  private final TickGatherer gatherer;
  private final List<Tick> ticks;

  private RotationSearch(TickGatherer gatherer) {
    this.gatherer = gatherer;
    this.ticks = gatherer.ticks();
  }

  /** Looks for a period among all of 15 to 100 turns a minute. */
  public static RotationFinding of(TickGatherer gatherer) {
    return new RotationSearch(gatherer).search(Double.NaN);
  }

  /**
   * Looks for scratches at a speed that is known.
   *
   * @param rpm turns a minute, {@value #SLOWEST_RPM} to {@value #FASTEST_RPM}
   */
  public static RotationFinding at(TickGatherer gatherer, double rpm) {
    if (!(rpm >= SLOWEST_RPM && rpm <= FASTEST_RPM)) {
      throw new IllegalArgumentException(
          rpm + " turns a minute are outside " + SLOWEST_RPM + " to " + FASTEST_RPM);
    }
    return new RotationSearch(gatherer).search(rpm);
  }

  /** A stretch of periods and the rows in it that share no tick. */
  private record Stretch(double period, double logChance, EvenRows rows, List<EvenRow> found) {}

  private RotationFinding search(double rpm) {
    Stretch best = null;
    List<Tick> bestTicks = List.of();
    for (int most : A_SECOND) {
      List<Tick> strongest = gatherer.thinned(ticks, most);
      if (strongest.size() < FEWEST_TICKS) {
        continue;
      }
      EvenRows rows = new EvenRows(times(strongest));
      Stretch stretch = Double.isNaN(rpm) ? anywhere(rows) : judged(rows, rpm);
      if (stretch != null && Double.isNaN(rpm)) {
        stretch = fundamental(stretch);
      }
      if (stretch != null && (best == null || stretch.logChance() < best.logChance())) {
        best = stretch;
        bestTicks = strongest;
      }
    }
    double chance =
        best == null
            ? 1
            : Math.min(1, StrictMath.exp(best.logChance() + StrictMath.log(A_SECOND.length)));
    if (best == null || chance > RotationFinding.MOST_CHANCE) {
      return RotationFinding.none(chance, gatherer.seen(), ticks.size());
    }
    List<EvenRow> told = best.rows().joined(told(best));
    double turn = median(told.isEmpty() ? best.found() : told);
    List<Scratch> scratches = new ArrayList<>();
    for (EvenRow row : told) {
      scratches.add(scratch(row, bestTicks, turn));
    }
    scratches.sort(Comparator.comparingLong(Scratch::firstFrame));
    return new RotationFinding(
        true, 60 / turn, turn, chance, gatherer.seen(), ticks.size(), scratches);
  }

  private double[] times(List<Tick> of) {
    double[] times = new double[of.size()];
    for (int i = 0; i < times.length; i++) {
      times[i] = of.get(i).frame() / (double) gatherer.sampleRateHz();
    }
    return times;
  }

  private static Stretch judged(EvenRows rows, double rpm) {
    double period = 60 / rpm;
    double most = period * (1 + 2 * WIDE);
    List<EvenRow> near = rows.between(period * (1 - 2 * WIDE), most);
    return near.isEmpty() ? null : judged(rows, near, period, 2 * WIDE);
  }

  private static Stretch anywhere(EvenRows rows) {
    double shortest = 60 / FASTEST_RPM;
    List<EvenRow> all = rows.between(shortest, 60 / SLOWEST_RPM);
    double step = StrictMath.log1p(WIDE);
    int stretches = (int) Math.ceil(StrictMath.log(FASTEST_RPM / SLOWEST_RPM) / step);
    double[] surprise = new double[stretches + 1];
    List<List<EvenRow>> bins = new ArrayList<>();
    for (int i = 0; i <= stretches; i++) {
      bins.add(new ArrayList<>());
    }
    for (EvenRow row : all) {
      double place = StrictMath.log(Math.max(1, row.period() / shortest)) / step;
      int bin = (int) Math.min(stretches, place);
      bins.get(bin).add(row);
      surprise[bin] += row.surprise();
    }
    boolean[] nominal = new boolean[stretches];
    int nominals = 0;
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < stretches; i++) {
      nominal[i] = DiscSpeed.of(60 / centre(shortest, step, i)).isPresent();
      nominals += nominal[i] ? 1 : 0;
      if (surprise[i] + surprise[i + 1] > 0) {
        order.add(i);
      }
    }
    order.sort(
        Comparator.comparingDouble((Integer i) -> surprise[i] + surprise[i + 1])
            .reversed()
            .thenComparing(Comparator.naturalOrder()));
    Stretch best = null;
    int taken = 0;
    for (int i : order) {
      if (taken >= STRETCHES_JUDGED && !nominal[i]) {
        continue;
      }
      taken++;
      List<EvenRow> inside = new ArrayList<>(bins.get(i));
      inside.addAll(bins.get(i + 1));
      Stretch judged = judged(rows, inside, centre(shortest, step, i), WIDE);
      double tried = StrictMath.log(2.0 * (nominal[i] ? nominals : stretches));
      Stretch corrected =
          new Stretch(judged.period(), judged.logChance() + tried, rows, judged.found());
      if (best == null || corrected.logChance() < best.logChance()) {
        best = corrected;
      }
    }
    return best;
  }

  /**
   * What repeats every turn repeats every two and three turns too, and may do so more evenly where
   * ticks are missing. So a part of the period is taken if it stands out as well, and none of the
   * two (three, four) parts of a turn is half empty. The other way round, two scratches a third of
   * a turn apart make a row of thirds, every third of which is empty.
   */
  private static Stretch fundamental(Stretch found) {
    for (int times = 3; times > 1; times--) {
      double rpm = 60 / (times * found.period());
      if (rpm >= SLOWEST_RPM && NEARLY_EMPTY > times * emptiestPart(found, times)) {
        Stretch whole = judged(found.rows(), rpm);
        if (whole != null && whole.logChance() < CERTAIN_LOG) {
          return new Stretch(whole.period(), found.logChance(), whole.rows(), whole.found());
        }
      }
    }
    for (int parts = MOST_PARTS; parts > 1; parts--) {
      double rpm = parts * 60 / found.period();
      Stretch part = rpm > FASTEST_RPM ? null : judged(found.rows(), rpm);
      if (part != null
          && part.logChance() < CERTAIN_LOG
          && found.logChance() < CERTAIN_LOG
          && 2 * parts * emptiestPart(part, parts) > 1) {
        return new Stretch(part.period(), found.logChance(), part.rows(), part.found());
      }
    }
    return found;
  }

  /** Share of the ticks that lie in the emptiest of the parts, over the rows that stand out. */
  private static double emptiestPart(Stretch stretch, int parts) {
    int all = 0;
    int emptiest = 0;
    for (EvenRow row : told(stretch)) {
      int[] counts = new int[parts];
      for (int turn : row.turns()) {
        counts[turn % parts]++;
      }
      all += row.turns().length;
      emptiest += Arrays.stream(counts).min().orElse(0);
    }
    return all == 0 ? 0 : emptiest / (double) all;
  }

  private static double centre(double shortest, double step, int stretch) {
    return shortest * StrictMath.exp((stretch + 1) * step);
  }

  private static Stretch judged(EvenRows rows, List<EvenRow> inside, double period, double wide) {
    List<EvenRow> apart = apart(inside);
    double least = 0;
    int tried = 0;
    for (int count : COUNTS) {
      if (count > apart.size()) {
        break;
      }
      tried++;
      double mean = rows.expected(apart.get(count - 1).surprise(), 2 * wide * period);
      least = Math.min(least, logOfAtLeast(count, mean));
    }
    return new Stretch(period, least + StrictMath.log(Math.max(1, tried)), rows, apart);
  }

  /** The most surprising rows first, none with a tick of one before it. */
  private static List<EvenRow> apart(List<EvenRow> rows) {
    List<EvenRow> sorted = new ArrayList<>(rows);
    sorted.sort(
        Comparator.comparingDouble(EvenRow::surprise)
            .reversed()
            .thenComparingInt(row -> row.members()[0])
            .thenComparingDouble(EvenRow::period));
    List<EvenRow> apart = new ArrayList<>();
    Set<Integer> taken = new HashSet<>();
    for (EvenRow row : sorted) {
      boolean free = true;
      for (int member : row.members()) {
        free &= !taken.contains(member);
      }
      if (free) {
        apart.add(row);
        for (int member : row.members()) {
          taken.add(member);
        }
      }
    }
    return apart;
  }

  /**
   * Logarithm of a bound on the probability that a Poisson variable is at least {@code count}: its
   * first term over one minus the ratio of the next.
   */
  static double logOfAtLeast(int count, double mean) {
    if (mean >= count) {
      return 0;
    }
    if (mean <= 0) {
      return LEAST_LOG;
    }
    double log = count * StrictMath.log(mean) - mean;
    for (int k = 2; k <= count; k++) {
      log -= StrictMath.log(k);
    }
    return Math.max(LEAST_LOG, Math.min(0, log - StrictMath.log1p(-mean / (count + 1))));
  }

  /** The rows that can hardly be chance by themselves, at the period that was found. */
  private static List<EvenRow> told(Stretch stretch) {
    List<EvenRow> told = new ArrayList<>();
    for (EvenRow row : stretch.found()) {
      double mean = stretch.rows().expected(row.surprise(), 2 * WIDE * stretch.period());
      if (mean <= CHANCE_OF_A_SCRATCH && row.members().length >= FEWEST_TICKS) {
        told.add(row);
      }
    }
    return told;
  }

  /** Of the periods of the rows, each as often as it has ticks. */
  private static double median(List<EvenRow> rows) {
    List<EvenRow> sorted = new ArrayList<>(rows);
    sorted.sort(Comparator.comparingDouble(EvenRow::period));
    int all = 0;
    for (EvenRow row : sorted) {
      all += row.members().length;
    }
    int passed = 0;
    for (EvenRow row : sorted) {
      passed += row.members().length;
      if (2 * passed >= all) {
        return row.period();
      }
    }
    throw new IllegalArgumentException("no rows");
  }

  private Scratch scratch(EvenRow row, List<Tick> of, double turn) {
    List<Long> frames = new ArrayList<>();
    for (int member : row.members()) {
      frames.add(of.get(member).frame());
    }
    long first = frames.get(0);
    double turns = first / (double) gatherer.sampleRateHz() / turn;
    return new Scratch(
        first,
        frames.get(frames.size() - 1),
        row.lastTurn(),
        360 * (turns - Math.floor(turns)),
        360 * (row.period() - turn) / turn,
        frames);
  }
}
