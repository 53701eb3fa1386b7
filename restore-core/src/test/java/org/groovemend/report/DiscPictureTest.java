package org.groovemend.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;

class DiscPictureTest {

  private static final int RATE = 1000;

  /** 100 turns of one second. */
  private static final DiscLayout LAYOUT = new DiscLayout(100_000, RATE, 1.0, 100, 50);

  /** Pixel of the centre, and pixels of the outer radius. */
  private static final int X = 600;

  private static final int Y = 584;
  private static final int RADIUS = 500;

  private static DiscMap map(List<List<Long>> scratches, List<DiscMap.FrameRange> bare) {
    return new DiscMap("side", LAYOUT, List.of("60 rpm"), "an invented disc", scratches, bare);
  }

  private static BufferedImage image(DiscMap map, DiscMarksBuilder marks) throws IOException {
    return ImageIO.read(new ByteArrayInputStream(Pictures.disc(map, marks)));
  }

  /** Colour at so many millimetres to the right of the centre and above it. */
  private static int colour(BufferedImage image, double right, double up) {
    double scale = RADIUS / LAYOUT.outerMm();
    int x = (int) Math.round(X + right * scale);
    int y = (int) Math.round(Y - up * scale);
    return image.getRGB(x, y) & 0xffffff;
  }

  @Test
  void timeRunsInwardsAndCounterClockwise() {
    assertThat(LAYOUT.radiusMm(0)).isEqualTo(100);
    assertThat(LAYOUT.radiusMm(100_000)).isEqualTo(50);
    assertThat(LAYOUT.pitchMm()).isCloseTo(0.5, within(1e-12));
    // a quarter of a turn later: to the left of the centre
    assertThat(LAYOUT.rightMm(50_250)).isCloseTo(-74.875, within(1e-9));
    assertThat(LAYOUT.upMm(50_250)).isCloseTo(0, within(1e-9));
    assertThat(LAYOUT.upMm(50_500)).isCloseTo(-74.75, within(1e-9));
    assertThat(LAYOUT.rightMm(50_750)).isCloseTo(74.625, within(1e-9));
  }

  @Test
  void everyKindLiesWhereItIsInItsOwnColour() throws IOException {
    DiscMarksBuilder marks = new DiscMarksBuilder(LAYOUT);
    marks.add(DiscMark.Kind.CLICK, 50_250, 9);
    marks.add(DiscMark.Kind.CRACKLE, 50_500, 1);
    marks.add(DiscMark.Kind.THUMP, 50_750, 5);
    BufferedImage image = image(map(List.of(), List.of()), marks);
    assertThat(colour(image, -74.875, 0)).isEqualTo(Palette.AFTER_DEEP);
    assertThat(colour(image, 0, -74.75)).isEqualTo(Palette.MUTED);
    assertThat(colour(image, 74.625, 0)).isEqualTo(Palette.INK);
    // and nowhere else
    assertThat(colour(image, 60, -45)).isEqualTo(Palette.PAPER);
    assertThat(colour(image(map(List.of(), List.of()), new DiscMarksBuilder(LAYOUT)), -74.875, 0))
        .isEqualTo(Palette.PAPER);
  }

  @Test
  void aScratchIsAJoinedRowAlongItsRadius() throws IOException {
    // always three eighths of a turn: lower left
    List<Long> row = List.of(20_375L, 21_375L, 22_375L, 23_375L, 24_375L, 25_375L, 26_375L);
    BufferedImage image = image(map(List.of(row), List.of()), new DiscMarksBuilder(LAYOUT));
    double middle = LAYOUT.radiusMm(23_375) * Math.sqrt(0.5);
    assertThat(colour(image, -middle, -middle)).isEqualTo(Palette.BEFORE_DEEP);
    assertThat(colour(image, middle, middle)).isEqualTo(Palette.PAPER);
  }

  @Test
  void bareGrooveIsHatched() throws IOException {
    DiscMap map = map(List.of(), List.of(new DiscMap.FrameRange(40_000, 48_000)));
    int hatched = 0;
    for (double right = 76.5; right < 79.5; right += 0.2) {
      hatched +=
          colour(image(map, new DiscMarksBuilder(LAYOUT)), right, 5) != Palette.PAPER ? 1 : 0;
    }
    assertThat(hatched).isBetween(1, 10);
    for (double right = 82; right < 84; right += 0.2) {
      assertThat(colour(image(map, new DiscMarksBuilder(LAYOUT)), right, 5))
          .isEqualTo(Palette.PAPER);
    }
  }

  @Test
  void tooManyToDrawSinglyAreShadedByDensity() throws IOException {
    DiscMarksBuilder marks = new DiscMarksBuilder(LAYOUT);
    // the left half only, and more of them in a part of it
    for (int turn = 0; turn < 100; turn++) {
      for (int i = 0; i < 500; i += i > 200 && i < 300 ? 5 : 6) {
        marks.add(DiscMark.Kind.CRACKLE, turn * 1000L + i, 1);
      }
    }
    marks.add(DiscMark.Kind.THUMP, 99_500, 1);
    DiscMarks built = marks.build();
    assertThat(built.density()).isNotNull();
    assertThat(built.count(DiscMark.Kind.CRACKLE)).isGreaterThan(DiscMarksBuilder.MOST_SINGLE);
    assertThat(built.single()).extracting(DiscMark::kind).containsOnly(DiscMark.Kind.THUMP);
    long inCells = 0;
    for (int[] row : built.density()) {
      for (int count : row) {
        inCells += count;
      }
    }
    assertThat(inCells).isEqualTo(built.count(DiscMark.Kind.CRACKLE));
    BufferedImage image =
        ImageIO.read(new ByteArrayInputStream(DiscPicture.draw(map(List.of(), List.of()), built)));
    int left = 0;
    int right = 0;
    for (double out = 60; out < 90; out++) {
      for (double up = -30; up < 30; up++) {
        left += shaded(colour(image, -out, up));
        right += shaded(colour(image, out, up));
      }
    }
    // more than a third of the 1800 places looked at; on the other side nothing but time rings
    assertThat(left).isGreaterThan(600);
    assertThat(right).isZero();
  }

  private static int shaded(int colour) {
    return colour != Palette.PAPER && colour != Palette.RULE ? 1 : 0;
  }

  @Test
  void bothWallsOfOneKindAreOnePlace() {
    DiscMarksBuilder marks = new DiscMarksBuilder(LAYOUT);
    marks.add(DiscMark.Kind.CLICK, 100, 2);
    marks.add(DiscMark.Kind.THUMP, 101, 2);
    marks.add(DiscMark.Kind.CLICK, 102, 7);
    marks.add(DiscMark.Kind.CLICK, 110, Double.NaN);
    DiscMarks built = marks.build();
    assertThat(built.count(DiscMark.Kind.CLICK)).isEqualTo(2);
    assertThat(built.single())
        .containsExactly(
            new DiscMark(DiscMark.Kind.THUMP, 101, 2),
            new DiscMark(DiscMark.Kind.CLICK, 102, 7),
            new DiscMark(DiscMark.Kind.CLICK, 110, Double.NEGATIVE_INFINITY));
    assertThatThrownBy(() -> marks.add(DiscMark.Kind.CLICK, 100_000, 1))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void hardlyAnySideCanBeDrawn() throws IOException {
    DiscLayout tiny = new DiscLayout(1, 8000, 1.8, 146.05, 60.325);
    DiscMarksBuilder marks = new DiscMarksBuilder(tiny);
    marks.add(DiscMark.Kind.CLICK, 0, 1);
    DiscMap map =
        new DiscMap("x".repeat(400), tiny, List.of(), "disc", List.of(List.of(0L)), List.of());
    assertThat(image(map, marks).getWidth()).isEqualTo(1200);
    assertThatThrownBy(() -> new DiscLayout(0, 8000, 1.8, 146, 60))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new DiscLayout(10, 8000, 1.8, 60, 146))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
