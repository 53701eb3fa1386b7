package org.groovemend.plays;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.DoubleUnaryOperator;
import org.groovemend.chain.Progress;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Two noisy, clicky plays of one invented disc, with different wow; what is right is known. */
@Tag("long")
class MergeTest {
  private static final int RATE = 44_100;
  private static final int SECONDS = 20;
  private static final int FRAMES = SECONDS * RATE;
  private static final double NOISE = 0.003;
  private static final int CLICKS = 50;

  private static double[] groove;
  private static double[] clean;
  private static double[] first;
  private static List<InventedDisc.Pulse> ofFirst;
  private static List<InventedDisc.Pulse> ofSecond;
  private static List<RangeReader> sides;
  private static PlaySurvey survey;
  private static double[] merged;

  @BeforeAll
  static void merge() throws Exception {
    DoubleUnaryOperator a = InventedDisc.wow(1, 0, 0.0015, 1.3, 0.3);
    DoubleUnaryOperator b = InventedDisc.wow(1.003, -1.2, 0.002, 1.3, 2.0);
    InventedDisc disc = new InventedDisc(5, 1, SECONDS - 1);
    groove = InventedDisc.groove(RATE, FRAMES, a);
    double[] other = InventedDisc.groove(RATE, FRAMES, b);
    clean = disc.sound(groove, 0);
    first = clean.clone();
    double[] second = disc.sound(other, 0);
    InventedDisc.add(first, InventedDisc.noise(10, FRAMES, NOISE));
    InventedDisc.add(second, InventedDisc.noise(20, FRAMES, NOISE));
    ofFirst = pulses(1);
    ofSecond = pulses(2);
    InventedDisc.add(first, groove, ofFirst, 1);
    InventedDisc.add(second, other, ofSecond, 1);
    for (int i = 0; i < FRAMES; i++) {
      second[i] *= 0.8;
    }
    sides = List.of(InventedDisc.side(RATE, first), InventedDisc.side(RATE, second));
    survey = survey(Crew.alone());
    merged = run(survey, Crew.alone());
  }

  private static PlaySurvey survey(Crew crew) throws Exception {
    return PlaySurvey.of(PlaySet.align(sides, crew, Progress.SILENT), crew, Progress.SILENT);
  }

  private static double[] run(PlaySurvey survey, Crew crew) throws IOException {
    double[] out = new double[FRAMES];
    Merge.run(
        survey,
        crew,
        (at, x, count) -> System.arraycopy(x[0], 0, out, (int) at, count),
        Progress.SILENT);
    return out;
  }

  /** From 16 to 42 dB over the noise, some 0.1 to 1 ms long. */
  private static List<InventedDisc.Pulse> pulses(long seed) {
    Random random = new Random(seed);
    List<InventedDisc.Pulse> all = new ArrayList<>();
    for (int i = 0; i < CLICKS; i++) {
      double height = 0.02 * Math.pow(20, random.nextDouble());
      all.add(
          new InventedDisc.Pulse(
              2 + (SECONDS - 6.0) * (i + 0.8 * random.nextDouble()) / CLICKS,
              random.nextBoolean() ? height : -height,
              (30 + 120 * random.nextDouble()) * 1e-6));
    }
    return all;
  }

  @Test
  void equalIndependentNoiseSinksByNearlyThreeDecibels() {
    boolean[] dirty = new boolean[FRAMES];
    for (List<InventedDisc.Pulse> pulses : List.of(ofFirst, ofSecond)) {
      for (InventedDisc.Pulse p : pulses) {
        int middle = frame(p.grooveSeconds());
        Arrays.fill(dirty, middle - 100, middle + 100, true);
      }
    }
    double before = 0;
    double after = 0;
    for (int i = 2 * RATE; i < (SECONDS - 4) * RATE; i++) {
      if (!dirty[i]) {
        before += (first[i] - clean[i]) * (first[i] - clean[i]);
        after += (merged[i] - clean[i]) * (merged[i] - clean[i]);
      }
    }
    // 10 log 2 = 3.01 dB is what two give (variance of a mean); a little more by the estimate's
    // chance
    assertThat(10 * Math.log10(before / after)).isBetween(2.5, 3.2);
  }

  @Test
  void clicksOfOnePlayGiveWayToTheOther() {
    int replaced = replaced(ofFirst, 0) + replaced(ofSecond, 1);
    // the aim: 95 of 100
    assertThat(replaced).isGreaterThanOrEqualTo(95);
  }

  /** Places of the right play that hold all samples of a pulse above half its height. */
  private static int replaced(List<InventedDisc.Pulse> pulses, int play) {
    int good = 0;
    for (InventedDisc.Pulse p : pulses) {
      int middle = frame(p.grooveSeconds());
      int low = middle;
      int high = middle;
      for (int i = middle - 60; i < middle + 60; i++) {
        if (Math.abs(p.at(groove[i])) > 0.5 * Math.abs(p.height())) {
          low = Math.min(low, i);
          high = Math.max(high, i);
        }
      }
      for (Place place : survey.places()) {
        if (place.damaged() == 1 << play
            && !place.everywhere()
            && place.start() <= low
            && place.end() > high) {
          good++;
          break;
        }
      }
    }
    return good;
  }

  private static int frame(double grooveSeconds) {
    int at = Arrays.binarySearch(groove, grooveSeconds);
    return at < 0 ? -at - 1 : at;
  }

  @Test
  void anyNumberOfThreadsGivesTheSameSamples() throws Exception {
    ExecutorService executor = Executors.newFixedThreadPool(3);
    try {
      Crew crew = new Crew(executor, 3);
      assertThat(run(survey(crew), crew)).isEqualTo(merged);
    } finally {
      executor.shutdown();
    }
  }

  @Test
  void sharesOfAllPlaysAddUpToOne() {
    for (int n = 0; n < survey.passages(); n++) {
      for (int b = 0; b < survey.centresHertz().length; b++) {
        assertThat(survey.share(n, 0, 0, b) + survey.share(n, 1, 0, b))
            .isCloseTo(1, org.assertj.core.data.Offset.offset(1e-12));
      }
    }
  }

  @Test
  void aNoisierPlayCountsLess() throws Exception {
    double[] noisy = first.clone();
    InventedDisc.add(noisy, InventedDisc.noise(30, FRAMES, 3 * NOISE));
    List<RangeReader> three = List.of(sides.get(0), InventedDisc.side(RATE, noisy));
    // noise of the second alone: the first has none that it lacks, so nearly all is taken from it
    PlaySurvey uneven =
        PlaySurvey.of(
            PlaySet.align(three, Crew.alone(), Progress.SILENT), Crew.alone(), Progress.SILENT);
    assertThat(uneven.share(2, 0, 0, 13)).isGreaterThan(0.9);
  }
}
