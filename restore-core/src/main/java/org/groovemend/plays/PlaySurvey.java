package org.groovemend.plays;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.chain.Progress;
import org.groovemend.signal.robust.Median;
import org.groovemend.stage.Crew;

/**
 * What aligned plays are to one another along the side: places that differ, powers by passage, and
 * the weights that follow.
 */
public final class PlaySurvey {

  /** Segments in a passage: some four seconds. */
  static final int SEGMENTS = 3;

  private static final double EDGE_SECONDS = 0.1;
  private static final double DOUBT_STEP_SECONDS = 0.05;

  private final PlaySet plays;
  private final Segments segments;
  private final List<Place> places = new ArrayList<>();
  private final List<Powers> passages = new ArrayList<>();
  private final Weights weights;

  private PlaySurvey(PlaySet plays, Crew crew, Progress progress) throws IOException {
    this.plays = plays;
    segments = new Segments(plays);
    int bands = new FrameMix(plays.rate(), plays.size()).octaves().count();
    long count = (segments.count() + SEGMENTS - 1) / SEGMENTS;
    for (long n = 0; n < count; n++) {
      passages.add(new Powers(plays.size(), plays.channels(), bands));
    }
    segments.run(crew, () -> new Looking(progress));
    weights = Weights.of(passages, doubts(), plays.limits());
  }

  /** Reads all plays once. */
  public static PlaySurvey of(PlaySet plays, Crew crew, Progress progress) throws IOException {
    return new PlaySurvey(plays, crew, progress);
  }

  private double[][] doubts() {
    double seconds = passageSeconds();
    double[][] doubts = new double[plays.size()][passages.size()];
    for (int p = 1; p < plays.size(); p++) {
      int some = (int) Math.max(1, seconds / DOUBT_STEP_SECONDS);
      double[] near = new double[some];
      for (int n = 0; n < passages.size(); n++) {
        for (int i = 0; i < some; i++) {
          near[i] = plays.alignment(p).doubtSeconds((n + (i + 0.5) / some) * seconds);
        }
        // where there is no music the map is in doubt, but there is none to harm
        doubts[p][n] = Median.of(near, 0, some);
      }
    }
    return doubts;
  }

  private final class Looking extends Segments.Worker {
    private final DifferenceSearch search =
        new DifferenceSearch(plays.rate(), segments.windowFrames());
    private final FrameMix frames = new FrameMix(plays.rate(), plays.size());
    private final Stretch stretch = new Stretch(plays.rate());
    private final Progress progress;
    private List<Place> found = List.of();
    private Powers powers;

    Looking(Progress progress) {
      this.progress = progress;
    }

    @Override
    void work() {
      int rate = plays.rate();
      long from = (long) Math.ceil((plays.fromSeconds() + EDGE_SECONDS) * rate);
      long to = (long) Math.floor((plays.toSeconds() - EDGE_SECONDS) * rate);
      int low = (int) Math.max(0, Math.min(segments.windowFrames(), from - first));
      int high = (int) Math.max(low, Math.min(segments.windowFrames(), to - first));
      found = search.find(x, low, high, first);
      stretch.part(x, segments.windowFrames(), first, found);
      powers = new Powers(plays.size(), plays.channels(), frames.octaves().count());
      int hop = frames.length() / 2;
      int start = segments.context();
      for (int at = start; at < start + segments.segmentFrames(); at += hop) {
        if (at >= low && at + frames.length() <= high) {
          frames.measure(x, at, powers);
        }
      }
    }

    @Override
    void finish() {
      long start = segment * segments.segmentFrames();
      long end = start + segments.segmentFrames();
      for (Place place : found) {
        if (place.start() >= start && place.start() < end) {
          places.add(place);
        }
      }
      passages.get((int) (segment / SEGMENTS)).add(powers);
      progress.at("comparing", Math.min(end, plays.frames()), plays.frames());
    }
  }

  /** Places that differ, in order. */
  public List<Place> places() {
    return List.copyOf(places);
  }

  public int passages() {
    return passages.size();
  }

  /** Length of a passage. */
  public double passageSeconds() {
    return (double) SEGMENTS * segments.segmentFrames() / plays.rate();
  }

  /** Nominal centres of the third octaves, Hz. */
  public double[] centresHertz() {
    double[] centres = new double[passages.get(0).bands()];
    for (int b = 0; b < centres.length; b++) {
      centres[b] = ThirdOctaves.centre(b);
    }
    return centres;
  }

  /** Share of a play that is taken in a passage. */
  public double share(int passage, int play, int channel, int band) {
    return weights.at(passage, play, channel, band);
  }

  /** Gain that brings a play to the response of the reference. */
  public double response(int play, int channel, int band) {
    return weights.gain(play, channel, band);
  }

  /**
   * A play's own noise, which no other has, mean square by third octave, channels averaged, at the
   * level and response of the reference.
   *
   * @param from first passage
   * @param to one past the last
   * @param loud true for what loud frames hold, distortion and misfit with it
   */
  public double[] ownNoise(int play, int from, int to, boolean loud) {
    Powers sum = Weights.sum(passages, from, to);
    double[] power = new double[sum.bands()];
    for (int b = 0; b < power.length; b++) {
      for (int c = 0; c < sum.channels(); c++) {
        power[b] += Noises.own(sum, weights.gains(), play, c, b, !loud) / sum.channels();
      }
    }
    return power;
  }

  /** Mean square of a play by third octave, channels averaged, at the level of the reference. */
  public double[] level(int play, int from, int to) {
    Powers sum = Weights.sum(passages, from, to);
    double[] power = new double[sum.bands()];
    for (int b = 0; b < power.length; b++) {
      for (int c = 0; c < sum.channels(); c++) {
        power[b] += sum.loud(c, b, play, play) / sum.channels();
      }
    }
    return power;
  }

  /** Frames that were measured in some passages. */
  public long measured(int from, int to) {
    return Weights.sum(passages, from, to).frames();
  }

  Weights weights() {
    return weights;
  }

  PlaySet plays() {
    return plays;
  }

  /** Numbers of places by what is damaged: for each play those in it alone; last those in all. */
  public long[] counts() {
    long[] counts = new long[plays.size() + 1];
    Arrays.fill(counts, 0);
    for (Place place : places) {
      if (place.everywhere()) {
        counts[plays.size()]++;
      } else {
        for (int p = 0; p < plays.size(); p++) {
          counts[p] += place.damages(p) ? 1 : 0;
        }
      }
    }
    return counts;
  }
}
