package org.groovemend.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/**
 * Contrast by WCAG 2.1 (relative luminance and contrast ratio); lightness by CIE 15 (L*, D65);
 * colour deficiencies by the projection matrices for linear RGB of F. Vienot, H. Brettel, J.
 * Mollon, Color Res. Appl. 24(4), 1999 (matrices from memory).
 */
class PaletteTest {

  private static double linear(int channel) {
    double s = channel / 255.0;
    return s <= 0.04045 ? s / 12.92 : Math.pow((s + 0.055) / 1.055, 2.4);
  }

  private static double[] planes(int rgb) {
    return new double[] {linear(rgb >> 16 & 255), linear(rgb >> 8 & 255), linear(rgb & 255)};
  }

  private static double luminance(double[] l) {
    return 0.2126 * l[0] + 0.7152 * l[1] + 0.0722 * l[2];
  }

  private static double luminance(int rgb) {
    return luminance(planes(rgb));
  }

  private static double contrast(int a, int b) {
    double high = Math.max(luminance(a), luminance(b)) + 0.05;
    double low = Math.min(luminance(a), luminance(b)) + 0.05;
    return high / low;
  }

  private static double f(double t) {
    return t > 216.0 / 24389 ? Math.cbrt(t) : (24389.0 / 27 * t + 16) / 116;
  }

  private static double[] lab(double[] l) {
    double x = (0.4124 * l[0] + 0.3576 * l[1] + 0.1805 * l[2]) / 0.95047;
    double y = luminance(l);
    double z = (0.0193 * l[0] + 0.1192 * l[1] + 0.9505 * l[2]) / 1.08883;
    return new double[] {116 * f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))};
  }

  private static double difference(double[] a, double[] b) {
    return Math.sqrt(
        Math.pow(a[0] - b[0], 2) + Math.pow(a[1] - b[1], 2) + Math.pow(a[2] - b[2], 2));
  }

  private static double[] protan(double[] l) {
    double m = 0.11238 * l[0] + 0.88762 * l[1];
    return new double[] {m, m, Math.max(0, 0.00401 * l[0] - 0.00401 * l[1] + l[2])};
  }

  private static double[] deutan(double[] l) {
    double m = 0.29275 * l[0] + 0.70725 * l[1];
    return new double[] {m, m, Math.max(0, -0.02234 * l[0] + 0.02234 * l[1] + l[2])};
  }

  @Test
  void formulaGivesTheStandardsExtremes() {
    assertThat(contrast(0x000000, 0xffffff)).isCloseTo(21, within(1e-9));
    assertThat(contrast(0x777777, 0xffffff)).isCloseTo(4.48, within(0.005)); // well-known near miss
  }

  @Test
  void textHasContrastOfAtLeastLevelAa() {
    int[][] text = {
      {Palette.INK, Palette.PAPER},
      {Palette.MUTED, Palette.PAPER},
      {Palette.AFTER_DEEP, Palette.PAPER},
      {Palette.BEFORE_DEEP, Palette.PAPER},
      {Palette.DARK_INK, Palette.DARK_PAPER},
      {Palette.DARK_MUTED, Palette.DARK_PAPER},
      {Palette.DARK_AFTER, Palette.DARK_PAPER},
      {Palette.DARK_BEFORE, Palette.DARK_PAPER}
    };
    for (int[] pair : text) {
      assertThat(contrast(pair[0], pair[1]))
          .as("%06x on %06x", pair[0], pair[1])
          .isGreaterThanOrEqualTo(4.5);
    }
    assertThat(contrast(Palette.BEFORE, Palette.PAPER)).isGreaterThanOrEqualTo(3);
    assertThat(contrast(Palette.AFTER, Palette.PAPER)).isGreaterThanOrEqualTo(3);
    assertThat(contrast(Palette.RULE, Palette.PAPER)).isLessThan(3); // the check can fail
  }

  @Test
  void beforeAndAfterStayApartWithoutRedOrGreenReceptors() {
    double[] before = planes(Palette.BEFORE);
    double[] after = planes(Palette.AFTER);
    assertThat(difference(lab(protan(before)), lab(protan(after)))).isGreaterThan(40);
    assertThat(difference(lab(deutan(before)), lab(deutan(after)))).isGreaterThan(40);
    // a red and a green of like lightness would not
    assertThat(difference(lab(deutan(planes(0xc04040))), lab(deutan(planes(0x6f8f20)))))
        .isLessThan(40);
  }

  @Test
  void levelColoursDarkenEvenly() {
    int[] scale = LevelColours.scale(Sheet.LEVEL_COUNT);
    double step =
        (LevelColours.PAPER_LIGHTNESS - LevelColours.INK_LIGHTNESS) / (scale.length - 1.0);
    for (int i = 0; i < scale.length; i++) {
      double lightness = lab(planes(scale[i]))[0];
      // rounding of a channel to 1/255: at most half a unit of L*
      assertThat(lightness).isCloseTo(LevelColours.PAPER_LIGHTNESS - i * step, within(0.6));
      if (i >= 4) {
        assertThat(lightness).isLessThan(lab(planes(scale[i - 4]))[0]);
      }
      if (i >= 2) {
        assertThat(scale[i]).isNotEqualTo(scale[i - 2]);
      }
    }
  }

  @Test
  void tenDecibelsOfLevelAreTellableWithAnyEyes() {
    int[] scale = LevelColours.scale(11);
    for (int i = 1; i < scale.length; i++) {
      double[] a = planes(scale[i - 1]);
      double[] b = planes(scale[i]);
      // several times the just noticeable difference of about 2.3
      assertThat(difference(lab(a), lab(b))).isGreaterThan(8);
      assertThat(difference(lab(protan(a)), lab(protan(b)))).isGreaterThan(6);
      assertThat(difference(lab(deutan(a)), lab(deutan(b)))).isGreaterThan(6);
    }
  }
}
