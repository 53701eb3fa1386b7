package org.groovemend.plays;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.chain.Progress;
import org.groovemend.resample.SampleSink;
import org.groovemend.stage.Crew;

/** Makes one transfer of several plays; see the page of this room. */
public final class Merge {
  private static final double EDGE_SECONDS = 0.2;

  private final PlaySet plays;
  private final PlaySurvey survey;
  private final Segments segments;
  private final List<Place> places;

  private Merge(PlaySurvey survey) {
    this.plays = survey.plays();
    this.survey = survey;
    segments = new Segments(plays);
    places = survey.places();
  }

  /**
   * Gives the merged side to a sink, in order, on the calling thread.
   *
   * @param survey of the plays
   */
  public static void run(PlaySurvey survey, Crew crew, SampleSink sink, Progress progress)
      throws IOException {
    Merge merge = new Merge(survey);
    merge.segments.run(crew, () -> merge.new Mixing(sink, progress));
  }

  private final class Mixing extends Segments.Worker {
    private final FrameMix frames = new FrameMix(plays.rate(), plays.size());
    private final Stretch stretch = new Stretch(plays.rate());
    private final double[][] out = new double[plays.channels()][segments.windowFrames()];
    private final double[][] given = new double[plays.channels()][segments.segmentFrames()];
    private final boolean[] there = new boolean[plays.size()];
    private final SampleSink sink;
    private final Progress progress;

    Mixing(SampleSink sink, Progress progress) {
      this.sink = sink;
      this.progress = progress;
    }

    @Override
    void work() {
      int window = segments.windowFrames();
      stretch.part(x, window, first, near(first, first + window));
      for (int c = 0; c < out.length; c++) {
        System.arraycopy(x[0][c], 0, out[c], 0, window);
      }
      int length = frames.length();
      int start = segments.context();
      double passage = (double) PlaySurvey.SEGMENTS * segments.segmentFrames();
      for (int at = start - length / 2; at < start + segments.segmentFrames(); at += length / 2) {
        boolean any = false;
        double begin = (double) (first + at) / plays.rate();
        double end = (double) (first + at + length) / plays.rate();
        for (int p = 1; p < there.length; p++) {
          Alignment a = plays.alignment(p);
          there[p] = begin > a.fromSeconds() + EDGE_SECONDS && end < a.toSeconds() - EDGE_SECONDS;
          any |= there[p];
        }
        if (any) {
          frames.mix(x, at, survey.weights(), (first + at + length / 2.0) / passage, there, out);
        }
      }
      for (int c = 0; c < out.length; c++) {
        System.arraycopy(out[c], start, given[c], 0, segments.segmentFrames());
      }
    }

    @Override
    void finish() throws IOException {
      long start = segment * segments.segmentFrames();
      int count = (int) Math.min(segments.segmentFrames(), plays.frames() - start);
      sink.accept(start, given, count);
      progress.at("merging", start + count, plays.frames());
    }
  }

  /** Places that may touch a stretch; they are in order, none longer than a tenth of a second. */
  private List<Place> near(long from, long to) {
    int low = 0;
    int high = places.size();
    long reach = plays.rate() / 10;
    while (low < high) {
      int mid = (low + high) / 2;
      if (places.get(mid).start() < from - reach) {
        low = mid + 1;
      } else {
        high = mid;
      }
    }
    List<Place> near = new ArrayList<>();
    for (int i = low; i < places.size() && places.get(i).start() < to + reach; i++) {
      near.add(places.get(i));
    }
    return near;
  }
}
