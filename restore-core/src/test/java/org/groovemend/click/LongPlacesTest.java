package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.simulate.RestraintPiece;
import org.groovemend.stage.LeftAlone;
import org.groovemend.stage.SegmentWindow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class LongPlacesTest {
  private static final int RATE = 48_000;
  private static final AudioFormat FORMAT = AudioFormat.pcm(RATE, 1, 24);
  private static final ClickGeometry GEOMETRY = ClickGeometry.of(ClickParameters.defaults(), RATE);
  private static final RepairDomain DOMAIN = RepairDomain.of(CaptureCurve.FLAT, RATE);

  private static List<LeftAlone> find(double[] x, long from, long to, List<Gap> gaps) {
    SegmentWindow w = new SegmentWindow(new double[][] {x}, 0, x.length, from, to, x.length);
    ClickDetector detector = new ClickDetector(GEOMETRY, DOMAIN, FORMAT);
    detector.load(w);
    LongPlaces places = new LongPlaces(GEOMETRY, RATE, DOMAIN.floor(FORMAT.quantumStep()));
    places.find(w, 0, detector, gaps);
    return places.ofSegment();
  }

  private static double[] music() {
    Random random = new Random(1);
    double[] x = new double[RATE];
    for (int n = 0; n < x.length; n++) {
      x[n] = 0.2 * StrictMath.sin(n * 0.05) + 0.1 * StrictMath.sin(n * 0.31);
      x[n] += 1e-3 * random.nextGaussian();
    }
    return x;
  }

  private static double[] burst(int at, int frames, double endLevel) {
    Random random = new Random(2);
    double[] x = music();
    for (int i = 0; i < frames; i++) {
      x[at + i] += 0.3 * StrictMath.pow(endLevel, i / (double) frames) * random.nextGaussian();
    }
    return x;
  }

  /** 30 ms of scrape: known to a millisecond. */
  @Test
  void aBurstIsFoundWithItsExtent() {
    List<LeftAlone> found = find(burst(20_000, 1_440, 1), 0, RATE, List.of());
    assertThat(found).hasSize(1);
    assertThat(found.get(0).start()).isBetween(19_950L, 20_050L);
    assertThat(found.get(0).end()).isBetween(21_390L, 21_500L);
  }

  @Test
  void soundThatDiesAwayIsNoBurst() {
    assertThat(find(burst(20_000, 9_600, 1e-4), 0, RATE, List.of())).isEmpty();
  }

  @Test
  void aClickIsNoBurstAndMusicHasNone() {
    assertThat(find(burst(20_000, 200, 1), 0, RATE, List.of())).isEmpty();
    assertThat(find(music(), 0, RATE, List.of())).isEmpty();
  }

  /** Every place belongs to the segment it starts in, wherever segments begin. */
  @Test
  void segmentsShareNothingAndLoseNothing() {
    double[] x = burst(20_000, 1_440, 1);
    List<LeftAlone> whole = find(x, 0, RATE, List.of());
    for (int cut : new int[] {19_000, 20_500, 21_300}) {
      List<LeftAlone> first = find(x, 0, cut, List.of());
      List<LeftAlone> second = find(x, cut, RATE, List.of());
      assertThat(first.isEmpty() ? second : first).isEqualTo(whole);
      assertThat(first.size() + second.size()).isEqualTo(1);
    }
  }

  private static Gap gap(long start, long end) {
    return new Gap(start, end, List.of(), 0, null);
  }

  @Test
  void gapsThatTouchForMoreThanTwentyMillisecondsAreOnePlace() {
    List<Gap> row = List.of(gap(1000, 1300), gap(1300, 1640), gap(1640, 1990), gap(3000, 3010));
    assertThat(find(music(), 0, RATE, row)).containsExactly(new LeftAlone(0, 1000, 1990));
    List<Gap> broken = List.of(gap(1000, 1300), gap(1301, 1640), gap(1640, 1990));
    assertThat(find(music(), 0, RATE, broken)).isEmpty();
  }

  @Test
  void oneGapLongerThanTheLongestRepairIsAPlace() {
    int longest = GEOMETRY.longest();
    assertThat(find(music(), 0, RATE, List.of(gap(1000, 1000 + longest)))).isEmpty();
    assertThat(find(music(), 0, RATE, List.of(gap(1000, 1001 + longest))))
        .containsExactly(new LeftAlone(0, 1000, 1001 + longest));
  }

  @ParameterizedTest
  @EnumSource(RestraintPiece.class)
  void soundThatLooksLikeDamageIsNotFlagged(RestraintPiece piece) {
    for (double[] channel : piece.play(RATE, 4, 3)) {
      assertThat(find(channel, 0, channel.length, List.of())).isEmpty();
    }
  }
}
