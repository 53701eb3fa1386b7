package org.groovemend.bands;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.LongConsumer;
import org.groovemend.leadin.LeadInFinder;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.stage.RangeReader;

/**
 * What was heard of a side with regard to its bands: where music begins and ends, the gaps, and how
 * loud it is everywhere.
 *
 * <p>Keeps about 1.6 kB for each second of a stereo side, nothing else that grows with its length.
 */
public final class BandSurvey {

  /** Above what the other places say of the groove noise: likely quiet music. */
  private static final double FAINT_DB = 1.5;

  private static final int BLOCK = 1 << 15;

  private final int rate;
  private final CellLevels levels;
  private final LeadInFinding leadIn;
  private final GapSearch search;
  private final List<Gap> gaps = new ArrayList<>();
  private long musicStart;
  private long musicEnd;

  private BandSurvey(int rate, CellLevels levels, LeadInFinding leadIn) {
    this.rate = rate;
    this.levels = levels;
    this.leadIn = leadIn;
    this.search = new GapSearch(levels, leadIn, rate);
    this.musicEnd = levels.frames();
  }

  /**
   * Reads a side once, and the gaps found once more.
   *
   * @param done told how many frames have been read
   */
  public static BandSurvey of(RangeReader side, LongConsumer done) throws IOException {
    long frames = side.frames();
    CellLevels levels = new CellLevels(side.format(), frames);
    LeadInFinder finder = new LeadInFinder(side.format(), frames);
    double[][] block = new double[side.format().channels()][BLOCK];
    for (long at = 0; at < frames; at += BLOCK) {
      int count = (int) Math.min(BLOCK, frames - at);
      side.read(at, count, block);
      levels.accept(block, count);
      finder.accept(block, count);
      done.accept(at + count);
    }
    levels.calm();
    BandSurvey survey = new BandSurvey(side.format().sampleRateHz(), levels, finder.finish());
    survey.judge(side);
    return survey;
  }

  private void judge(RangeReader side) throws IOException {
    GapProof proof = new GapProof(side);
    List<int[]> stretches = search.find();
    for (int[] s : stretches) {
      long from = s[0] == 0 ? 0 : levels.middle(s[0]);
      long to = s[1] == levels.cells() ? levels.frames() : levels.middle(s[1]);
      if (s[0] == 0 && s[1] == levels.cells()) {
        musicStart = 0;
        musicEnd = levels.frames();
        return;
      }
      if (s[0] == 0) {
        musicStart = to;
      } else if (s[1] == levels.cells()) {
        musicEnd = from;
      } else {
        gaps.add(gap(s, from, to, proof));
      }
    }
  }

  private Gap gap(int[] s, long from, long to, GapProof proof) throws IOException {
    double seconds = (to - from) / (double) rate;
    double confidence = 1 - StrictMath.exp(-(seconds - 0.3) / 0.5);
    double rise = Math.min(rise(s[1], 1), rise(s[0] - 1, -1));
    confidence *= Math.min(1, 0.3 + rise / 14) * search.trust();
    double excess = excess(s);
    StringBuilder reason =
        new StringBuilder(
            String.format(
                Locale.ROOT, "%.2f s of bare groove between rises of %.0f dB", seconds, rise));
    boolean tonal = proof.tonal(from + (to - from) / 2, to - levels.hop());
    double out = search.standsOut(s);
    confidence *= StrictMath.exp(-Math.max(0, out - FAINT_DB) / 2);
    if (out > FAINT_DB) {
      reason.append(
          String.format(Locale.ROOT, "; something lies %.1f dB above the groove noise in it", out));
    }
    if (tonal) {
      confidence *= 0.5;
      reason.append("; quiet notes can be heard in it");
    }
    return new Gap(from, to, Math.max(0.02, Math.min(0.99, confidence)), excess, reason.toString());
  }

  /** How far the loudest row gets above the floor within a second from a cell on. */
  private double rise(int from, int direction) {
    double[] base = new double[levels.rows()];
    double most = 0;
    int reach = rate / levels.hop();
    for (int k = 0, i = from; k < reach && i >= 0 && i < levels.cells(); k++, i += direction) {
      search.floor().at(i, base);
      for (int r = 0; r < base.length; r++) {
        if (levels.above(r, GapSearch.TELLING_HZ)) {
          most = Math.max(most, levels.level(r, i) - base[r]);
        }
      }
    }
    return most;
  }

  private double excess(int[] s) {
    double sum = 0;
    for (int i = s[0]; i < s[1]; i++) {
      sum += level(i) - search.floor().mean(i, GapSearch.TELLING_HZ);
    }
    return sum / (s[1] - s[0]);
  }

  /** Mean level of the telling rows of a cell, dB. */
  double level(int cell) {
    double sum = 0;
    int n = 0;
    for (int r = 0; r < levels.rows(); r++) {
      if (levels.above(r, GapSearch.TELLING_HZ)) {
        sum += levels.level(r, cell);
        n++;
      }
    }
    return sum / Math.max(1, n);
  }

  /** Level and groove noise in so many equal columns, or fewer on a short side. */
  public LevelColumns columns(int wanted) {
    int n = Math.min(wanted, levels.cells());
    float[] low = new float[n];
    float[] high = new float[n];
    float[] floor = new float[grooveKnown() ? n : 0];
    for (int c = 0; c < n; c++) {
      int from = (int) ((long) c * levels.cells() / n);
      int to = (int) ((long) (c + 1) * levels.cells() / n);
      low[c] = Float.POSITIVE_INFINITY;
      high[c] = Float.NEGATIVE_INFINITY;
      for (int i = from; i < to; i++) {
        float db = (float) level(i);
        low[c] = Math.min(low[c], db);
        high[c] = Math.max(high[c], db);
      }
      if (floor.length > 0) {
        floor[c] = (float) search.floor().mean(from, GapSearch.TELLING_HZ);
      }
    }
    return new LevelColumns(low, high, floor);
  }

  /** Stretches of bare groove, run-in and run-out among them, frames {@code [from, to)}. */
  public List<long[]> bareGroove() {
    List<long[]> all = new ArrayList<>();
    if (musicStart > 0) {
      all.add(new long[] {0, musicStart});
    }
    gaps.forEach(gap -> all.add(new long[] {gap.startFrame(), gap.endFrame()}));
    if (musicEnd < frames()) {
      all.add(new long[] {musicEnd, frames()});
    }
    return all;
  }

  CellLevels levels() {
    return levels;
  }

  public int sampleRateHz() {
    return rate;
  }

  /** Length of the side. */
  public long frames() {
    return levels.frames();
  }

  /** Gaps between bands, in order; also those that are doubted. */
  public List<Gap> gaps() {
    return List.copyOf(gaps);
  }

  /** First frame of music; 0 if the side begins with it. */
  public long musicStart() {
    return musicStart;
  }

  /** Frame behind the last music; the length of the side if it ends with it. */
  public long musicEnd() {
    return musicEnd;
  }

  /** Whether anything told what the bare groove sounds like. */
  public boolean grooveKnown() {
    return !search.floor().empty();
  }

  /** What told it, in words for people. */
  public String basis() {
    return search.basis();
  }

  public LeadInFinding leadIn() {
    return leadIn;
  }
}
