package org.groovemend.listening;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.groovemend.audio.AudioFormat;
import org.groovemend.measure.LevelTrack;
import org.junit.jupiter.api.Test;

/** Noise for music, at levels that are known. */
class PassageFinderTest {

  private static final int RATE = 8000;
  private static final AudioFormat MONO = AudioFormat.pcm(RATE, 1, 24);
  private static final double GROOVE_DB = -70;

  /** Lead-in to 3 s, run-out from 112 s; quiet 40 to 50 s, loud 70 to 78 s, a fade from 99 s. */
  private static double side(double time) {
    if (time < 3 || time >= 112) {
      return GROOVE_DB;
    }
    if (time >= 40 && time < 50) {
      return -45;
    }
    if (time >= 70 && time < 78) {
      return -10;
    }
    return time < 99 ? -20 : -20 - 2.5 * (time - 99);
  }

  private static double withoutFade(double time) {
    return time >= 99 && time < 112 ? -20 : side(time);
  }

  private static LevelTrack track(double seconds, DoubleUnaryOperator levelDb) {
    Random random = new Random(3);
    double[][] x = new double[1][(int) (seconds * RATE)];
    for (int i = 0; i < x[0].length; i++) {
      x[0][i] = Math.pow(10, levelDb.applyAsDouble(i / (double) RATE) / 20) * random.nextGaussian();
    }
    LevelTrack track = new LevelTrack(MONO, x[0].length);
    track.accept(x, x[0].length);
    return track;
  }

  private static List<Passage> find(LevelTrack track, boolean grooveKnown) {
    int[] repairs = new int[track.slots()];
    repairs[Math.min(620, repairs.length - 1)] = 2;
    repairs[Math.min(640, repairs.length - 1)] += 1;
    double groove = grooveKnown ? Math.pow(10, GROOVE_DB / 10) : Double.NaN;
    return PassageFinder.find(
        track,
        repairs,
        RATE,
        grooveKnown
            ? new PassageFinder.Span(3L * RATE, 112L * RATE, groove)
            : new PassageFinder.Span(0, track.frames(), groove));
  }

  private static Passage one(List<Passage> found, Passage.Kind kind) {
    List<Passage> of = new ArrayList<>(found);
    of.removeIf(p -> p.kind() != kind);
    assertThat(of).hasSize(1);
    return of.get(0);
  }

  private static void liesWithin(Passage passage, double from, double to) {
    assertThat(passage.startFrame() / (double) RATE).isBetween(from, to);
    assertThat(passage.endFrame() / (double) RATE).isBetween(from, to);
  }

  @Test
  void eachPassageIsFoundWhereItIs() {
    List<Passage> found = find(track(120, PassageFinderTest::side), true);
    assertThat(found).extracting(Passage::kind).containsExactly(Passage.Kind.values());
    liesWithin(one(found, Passage.Kind.QUIETEST), 40, 50);
    liesWithin(one(found, Passage.Kind.LOUDEST), 69.9, 78.1);
    // a second before it may count: the level is averaged over one
    liesWithin(one(found, Passage.Kind.FADE), 98, 112);
    assertThat(one(found, Passage.Kind.FADE).reason()).matches(".*by about 1[678] dB.");
    Passage repairs = one(found, Passage.Kind.MOST_REPAIRS);
    assertThat(repairs.startFrame()).isLessThanOrEqualTo(62L * RATE);
    assertThat(repairs.endFrame()).isGreaterThanOrEqualTo(64L * RATE + RATE / 10);
    assertThat(repairs.reason()).startsWith("3 places");
    Passage end = one(found, Passage.Kind.END);
    assertThat(end.startFrame()).isEqualTo(92L * RATE);
    assertThat(end.endFrame()).isEqualTo(112L * RATE);
    assertThat(found)
        .filteredOn(p -> p.kind() != Passage.Kind.END)
        .allSatisfy(p -> assertThat(p.frames()).isEqualTo(7L * RATE));
  }

  @Test
  void stepInLevelIsNoFade() {
    List<Passage> found = find(track(120, PassageFinderTest::withoutFade), true);
    assertThat(found).extracting(Passage::kind).doesNotContain(Passage.Kind.FADE);
  }

  @Test
  void withoutKnownGrooveTheQuietestMayBeItAndSaysSo() {
    Passage quietest = one(find(track(120, PassageFinderTest::side), false), Passage.Kind.QUIETEST);
    liesWithin(quietest, 112, 120);
    assertThat(quietest.reason()).contains("may be bare groove");
    Passage end = one(find(track(120, PassageFinderTest::side), false), Passage.Kind.END);
    assertThat(end.endFrame()).isEqualTo(120L * RATE);
  }

  @Test
  void digitalSilenceIsNoMusicAndNoFade() {
    DoubleUnaryOperator gap = t -> t >= 55 && t < 65 ? Double.NEGATIVE_INFINITY : side(t);
    List<Passage> found = find(track(120, gap), true);
    liesWithin(one(found, Passage.Kind.QUIETEST), 40, 50);
    assertThat(find(track(20, t -> Double.NEGATIVE_INFINITY), false)).isEmpty();
  }

  @Test
  void nothingOfAPauseBetweenPiecesIsTakenForMusic() {
    DoubleUnaryOperator pause = t -> t >= 55 && t < 65 ? GROOVE_DB : withoutFade(t);
    List<Passage> found = find(track(120, pause), true);
    liesWithin(one(found, Passage.Kind.QUIETEST), 40, 50);
  }

  @Test
  void shortSidesHaveShortPassages() {
    List<Passage> found = find(track(1, t -> -20), false);
    assertThat(found)
        .isNotEmpty()
        .allSatisfy(
            p -> {
              assertThat(p.startFrame()).isZero();
              assertThat(p.endFrame()).isEqualTo(RATE);
            });
    assertThat(one(find(track(80, t -> -20), false), Passage.Kind.LOUDEST).frames())
        .isEqualTo(7L * RATE);
    assertThat(one(find(track(70, t -> t < 1 ? -19 : -20), false), Passage.Kind.END).frames())
        .isEqualTo(20L * RATE);
  }
}
