package org.groovemend.plays;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Supplier;
import org.groovemend.chain.Progress;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;

/** Plays of one side, all heard at the moments of the first, which is the reference. */
public final class PlaySet {

  /** Most plays that are taken together. */
  public static final int MOST = 8;

  /** Share of half the rate up to which a play brought to other moments is whole. */
  private static final double KEPT = 0.9;

  private final List<Supplier<RangeReader>> heard = new ArrayList<>();
  private final List<PlayFinding> findings = new ArrayList<>();
  private final List<Alignment> alignments = new ArrayList<>();
  private final double[] limits;
  private int rate;
  private int channels;
  private long frames;
  private double from;
  private double to;

  private PlaySet(int plays) {
    limits = new double[plays];
  }

  /**
   * A play that is none, and why.
   *
   * @param play its number
   * @param reason a part of a sentence
   * @param exchanged true if it is one, its channels exchanged
   */
  public record Refusal(int play, String reason, boolean exchanged) {}

  /** Thrown when a play does not belong to the others. */
  public static final class RefusedException extends Exception {
    private static final long serialVersionUID = 1L;
    private final transient Refusal refusal;

    RefusedException(Refusal refusal) {
      super(refusal.reason());
      this.refusal = refusal;
    }

    public Refusal refusal() {
      return refusal;
    }
  }

  /**
   * Aligns all plays with the first.
   *
   * @param plays two to {@value #MOST}, of as many channels each
   * @throws RefusedException if one is no play of the same performance
   */
  public static PlaySet align(List<? extends RangeReader> plays, Crew crew, Progress progress)
      throws IOException, RefusedException {
    RangeReader reference = new SharedSide(plays.get(0));
    int rate = reference.format().sampleRateHz();
    PlaySet set = new PlaySet(plays.size());
    set.to = reference.frames() / (double) rate;
    set.rate = rate;
    set.channels = reference.format().channels();
    set.frames = reference.frames();
    set.heard.add(() -> reference);
    set.alignments.add(null);
    set.findings.add(PlayFinding.reference(reference.format().channels()));
    set.limits[0] = rate / 2.0;
    progress.at("aligning", 0, plays.size());
    Aligner aligner = new Aligner(reference, crew);
    double[] ones = new double[reference.format().channels()];
    Arrays.fill(ones, 1);
    for (int p = 1; p < plays.size(); p++) {
      RangeReader play = new SharedSide(plays.get(p));
      Alignment found;
      try {
        found = aligner.align(play);
      } catch (NotOnePerformanceException e) {
        boolean exchanged = exchanged(aligner, play);
        throw new RefusedException(new Refusal(p, e.getMessage(), exchanged));
      }
      AlignedPlay raw = new AlignedPlay(play, found, rate, reference.frames(), ones);
      double[] gain = LevelMatch.of(reference, raw, found.fromSeconds(), found.toSeconds());
      if (LevelMatch.exchanged(reference, raw, found.fromSeconds(), found.toSeconds())) {
        throw new RefusedException(new Refusal(p, "its channels are exchanged", true));
      }
      set.heard.add(() -> new AlignedPlay(play, found, rate, reference.frames(), gain));
      set.alignments.add(found);
      set.findings.add(PlayFinding.of(found, gain, rate));
      PlayMap map = found.map(rate, play.format().sampleRateHz(), 0);
      set.limits[p] =
          KEPT
              * 0.5
              * Math.min(rate, play.format().sampleRateHz())
              / Math.max(1, map.steepest() / map.gentlest());
      set.from = Math.max(set.from, found.fromSeconds());
      set.to = Math.min(set.to, found.toSeconds());
      progress.at("aligning", p + 1L, plays.size());
    }
    if (set.to - set.from < Aligner.LEAST_SECONDS) {
      throw new RefusedException(
          new Refusal(plays.size() - 1, "all together have less than 5 s in common", false));
    }
    return set;
  }

  /** Whether a play that is none would be one with its channels exchanged. */
  private static boolean exchanged(Aligner aligner, RangeReader play) throws IOException {
    if (play.format().channels() != 2) {
      return false;
    }
    try {
      aligner.align(new ExchangedChannels(play));
      return true;
    } catch (NotOnePerformanceException e) {
      return false;
    }
  }

  /** How each play lies, the reference first. */
  public List<PlayFinding> findings() {
    return List.copyOf(findings);
  }

  /** The plays at the reference's moments and level, the reference first; for one thread. */
  public List<RangeReader> heard() {
    return heard.stream().map(Supplier::get).toList();
  }

  int size() {
    return heard.size();
  }

  Alignment alignment(int play) {
    return alignments.get(play);
  }

  double[] limits() {
    return limits.clone();
  }

  public int rate() {
    return rate;
  }

  public int channels() {
    return channels;
  }

  public long frames() {
    return frames;
  }

  /** First moment at which all plays are there, seconds of the reference. */
  public double fromSeconds() {
    return from;
  }

  /** Last one. */
  public double toSeconds() {
    return to;
  }
}
