package org.groovemend.measure;

import java.util.Arrays;
import org.groovemend.audio.AudioFormat;

/**
 * Looks for clear onsets and decays in a side that comes by in order, before and after treatment,
 * and compares their energy. Places are looked for in the side before.
 *
 * <p>Onset: the mean square of 20 ms is at least 6 dB over that of the 50 ms before and 12 dB over
 * the groove's, it stays 3 dB over for 30 ms more (a tick does not), and nothing within 50 ms rises
 * more. Decay: the last 300 ms before the level, mean of 100 ms, falls within 6 dB of the groove's
 * and stays so for 200 ms; falling from each third to the next, by 2 dB in all. These limits are
 * the project's own; no published source.
 *
 * <p>Nothing is allocated once it runs.
 */
public final class OnsetsAndDecays {

  static final int ONSET_CELLS = CellEnergies.PER_SECOND / 50;
  static final int DECAY_CELLS = 3 * CellEnergies.PER_SECOND / 10;
  private static final int PRE = CellEnergies.PER_SECOND / 20;
  private static final int STAY = 10;
  private static final int THIRD = DECAY_CELLS / 3;
  private static final int HISTORY = 256;

  /** Cells that must have come behind the one in question. */
  private static final int AHEAD = 2 * THIRD;

  private static final double RISE = 4;
  private static final double STAYS = 2;
  private static final double ONSET_OVER_GROOVE = 15.8;
  private static final double SUNK = 4;
  private static final double FALL = 1.6;

  /** Power below which nothing is an onset: -100 dBFS. */
  private static final double LEAST = 1e-10;

  private final GrooveEnergy groove;
  private final CellEnergies cells;
  private final double[] before = new double[HISTORY];
  private final double[] after = new double[HISTORY];
  private final boolean[] repaired = new boolean[HISTORY];
  private final EnergyCensus onsets = new EnergyCensus();
  private final EnergyCensus decays = new EnergyCensus();
  private final EnergyCensus tails = new EnergyCensus();
  private final long firstCell;
  private final long lastCell;
  private long cell;
  private long lastDecay = -DECAY_CELLS;

  /**
   * @param groove energy of the bare groove; without it no decay is told
   * @param fromFrame no onset before counts, nor a decay that sinks before: a needle drop is none
   * @param toFrame nothing counts that begins behind
   */
  public OnsetsAndDecays(AudioFormat format, GrooveEnergy groove, long fromFrame, long toFrame) {
    this.groove = groove;
    cells = new CellEnergies(format, groove.fromHertz(), this::add);
    firstCell = Math.max(DECAY_CELLS + PRE, fromFrame / cells.cellFrames());
    lastCell = toFrame / cells.cellFrames();
    Arrays.fill(before, Double.NaN);
    Arrays.fill(after, Double.NaN);
  }

  /** The next frames, as {@link GrooveEnergyMeter#accept}. */
  public void accept(double[][] before, double[][] after, boolean[][] repaired, int count) {
    cells.accept(before, after, repaired, count);
  }

  /** What became of the first 20 ms of onsets. */
  public EnergyChange onsets() {
    return onsets.change();
  }

  /** What became of the last 300 ms of decays. */
  public EnergyChange decays() {
    return decays.change();
  }

  /** What became of the last 100 ms of the same decays. */
  public EnergyChange tails() {
    return tails.change();
  }

  private void add(double b, double a, boolean touched) {
    int at = (int) (cell % HISTORY);
    before[at] = b;
    after[at] = a;
    repaired[at] = touched;
    cell++;
    long asked = cell - AHEAD;
    if (asked >= firstCell && asked < lastCell) {
      onset(asked);
    }
    if (asked >= firstCell && asked - DECAY_CELLS < lastCell) {
      decay(asked);
    }
  }

  /** Mean of the cells {@code [from, to)}; NaN if one is missing. */
  private static double mean(double[] v, long from, long to) {
    double sum = 0;
    for (long i = from; i < to; i++) {
      sum += v[(int) (i % HISTORY)];
    }
    return sum / (to - from);
  }

  private double rise(long at) {
    return mean(before, at, at + ONSET_CELLS) / (mean(before, at - PRE, at) + LEAST);
  }

  private void onset(long at) {
    double first = mean(before, at, at + ONSET_CELLS);
    double rise = rise(at);
    // a comparison with NaN is false
    if (!(rise >= RISE && first >= ONSET_OVER_GROOVE * groove.before() + LEAST)) {
      return;
    }
    double stays = mean(before, at + ONSET_CELLS, at + STAY);
    if (!(stays >= STAYS * mean(before, at - PRE, at))) {
      return;
    }
    for (int i = 1; i <= PRE; i++) {
      if (rise(at - i) >= rise || rise(at + i) > rise) {
        return;
      }
    }
    onsets.add(
        at * cells.cellFrames(),
        first,
        mean(after, at, at + ONSET_CELLS),
        groove,
        groove.onsetSpread(),
        touched(at, at + ONSET_CELLS));
  }

  /**
   * @param end cell behind the decay
   */
  private void decay(long end) {
    double sunk = SUNK * groove.before();
    if (end < lastDecay + DECAY_CELLS
        || !(mean(before, end - THIRD, end) >= sunk)
        || !(mean(before, end, end + THIRD) < sunk)
        || !(mean(before, end + THIRD, end + 2 * THIRD) < sunk)) {
      return;
    }
    long start = end - DECAY_CELLS;
    double first = mean(before, start, start + THIRD);
    double second = mean(before, start + THIRD, end - THIRD);
    double third = mean(before, end - THIRD, end);
    if (!(first >= second && second >= third && first >= FALL * third)) {
      return;
    }
    lastDecay = end;
    count(decays, start, end);
    count(tails, end - THIRD, end);
  }

  private void count(EnergyCensus census, long from, long to) {
    census.add(
        from * cells.cellFrames(),
        mean(before, from, to),
        mean(after, from, to),
        groove,
        groove.decaySpread() * Math.sqrt(DECAY_CELLS / (double) (to - from)),
        touched(from, to));
  }

  private boolean touched(long from, long to) {
    for (long i = from; i < to; i++) {
      if (repaired[(int) (i % HISTORY)]) {
        return true;
      }
    }
    return false;
  }
}
