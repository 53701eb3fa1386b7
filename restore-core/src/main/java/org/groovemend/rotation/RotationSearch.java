package org.groovemend.rotation;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

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

  /** How far, as a share of a turn, a scratch may move from turn to turn. */
  private static final double DRIFT = 0.01;

  /** All ticks that were kept, and only the strongest: scratches are. */
  private static final int[] A_SECOND = {TickGatherer.A_SECOND, 6};

  private static final int STRETCHES_JUDGED = 40;

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
   * @param rpm turns a minute, {@value #SLOWEST_RPM} to {@value #FASTEST_RPM}; angles and drifts
   *     are told for exactly this speed, while the finding's speed is that of the rows
   */
  public static RotationFinding at(TickGatherer gatherer, double rpm) {
    if (!(rpm >= SLOWEST_RPM && rpm <= FASTEST_RPM)) {
      throw new IllegalArgumentException(
          rpm + " turns a minute are outside " + SLOWEST_RPM + " to " + FASTEST_RPM);
    }
    return new RotationSearch(gatherer).search(rpm);
  }

  private RotationFinding search(double rpm) {
    List<EvenRows> choices = new ArrayList<>();
    Stretch best = null;
    for (int most : A_SECOND) {
      List<Tick> strongest = gatherer.thinned(ticks, most);
      if (strongest.size() < Stretch.FEWEST_TICKS) {
        continue;
      }
      EvenRows rows = new EvenRows(strongest, gatherer.sampleRateHz());
      choices.add(rows);
      Stretch stretch =
          Double.isNaN(rpm) ? fundamental(anywhere(rows)) : Stretch.around(rows, 60 / rpm, DRIFT);
      if (stretch != null && (best == null || stretch.logChance() < best.logChance())) {
        best = stretch;
      }
    }
    double chance =
        best == null
            ? 1
            : Math.min(1, StrictMath.exp(best.logChance() + StrictMath.log(A_SECOND.length)));
    if (best == null || chance > RotationFinding.MOST_CHANCE) {
      return RotationFinding.none(chance, gatherer.seen(), ticks.size());
    }
    Stretch around = Stretch.around(best.rows(), best.medianPeriod(), DRIFT);
    double turn = (around == null ? best : around).medianPeriod();
    // angles are those of the speed that a person states, if one does
    double told = Double.isNaN(rpm) ? turn : 60 / rpm;
    return new RotationFinding(
        true, 60 / turn, turn, chance, gatherer.seen(), ticks.size(), scratches(choices, told));
  }

  /** Of the choices of ticks the one that tells most; scratches may drift more than the speed. */
  private List<Scratch> scratches(List<EvenRows> choices, double turn) {
    List<Scratch> fullest = List.of();
    int most = 0;
    for (EvenRows rows : choices) {
      Stretch stretch = Stretch.around(rows, turn, DRIFT);
      if (stretch == null) {
        continue;
      }
      List<Scratch> scratches = new ArrayList<>();
      int told = 0;
      for (EvenRow row : rows.joined(stretch.told())) {
        scratches.add(scratch(row, rows.frames(row), turn));
        told += row.members().length;
      }
      if (told > most) {
        most = told;
        fullest = scratches;
      }
    }
    return fullest.stream().sorted(Comparator.comparingLong(Scratch::firstFrame)).toList();
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
      Stretch judged = Stretch.of(rows, inside, centre(shortest, step, i), WIDE);
      double tried = StrictMath.log(2.0 * (nominal[i] ? nominals : stretches));
      Stretch corrected = judged.withLogChance(judged.logChance() + tried);
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
    if (found == null) {
      return null;
    }
    for (int times = 3; times > 1; times--) {
      double rpm = 60 / (times * found.period());
      if (rpm >= SLOWEST_RPM && NEARLY_EMPTY > times * found.emptiestPart(times)) {
        Stretch whole = Stretch.around(found.rows(), 60 / rpm, 2 * WIDE);
        if (whole != null && whole.logChance() < CERTAIN_LOG) {
          return whole.withLogChance(found.logChance());
        }
      }
    }
    for (int parts = MOST_PARTS; parts > 1; parts--) {
      double rpm = parts * 60 / found.period();
      Stretch part = rpm > FASTEST_RPM ? null : Stretch.around(found.rows(), 60 / rpm, 2 * WIDE);
      if (part != null
          && part.logChance() < CERTAIN_LOG
          && found.logChance() < CERTAIN_LOG
          && 2 * parts * part.emptiestPart(parts) > 1) {
        return part.withLogChance(found.logChance());
      }
    }
    return found;
  }

  private static double centre(double shortest, double step, int stretch) {
    return shortest * StrictMath.exp((stretch + 1) * step);
  }

  private Scratch scratch(EvenRow row, List<Long> frames, double turn) {
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
