package org.groovemend.report;

/**
 * Colours for levels: from paper (quiet) through straw and sea to ink (loud), as a print has it.
 *
 * <p>Own scale, laid out in CIE L*a*b* (CIE 15, D65, 2 degree observer): lightness falls evenly
 * from {@value #PAPER_LIGHTNESS} to {@value #INK_LIGHTNESS}, so equal steps of level look equal,
 * survive a grey copy, and stay apart without colour vision; hue only helps.
 */
final class LevelColours {

  static final double PAPER_LIGHTNESS = 95;
  static final double INK_LIGHTNESS = 13;

  /** a*, b* at equal distances along the scale; every colour between them lies inside sRGB. */
  private static final double[][] STATIONS = {{0, 6}, {-7, 27}, {-24, 1}, {-3, -29}, {12, -24}};

  private LevelColours() {}

  /**
   * The scale in steps of equal width.
   *
   * @param steps at least 2
   * @return 0xRRGGBB, quietest first
   */
  static int[] scale(int steps) {
    int[] colours = new int[steps];
    for (int i = 0; i < steps; i++) {
      double t = i / (steps - 1.0);
      double place = t * (STATIONS.length - 1);
      int at = Math.min(STATIONS.length - 2, (int) place);
      double f = place - at;
      double lightness = PAPER_LIGHTNESS + (INK_LIGHTNESS - PAPER_LIGHTNESS) * t;
      double a = STATIONS[at][0] + f * (STATIONS[at + 1][0] - STATIONS[at][0]);
      double b = STATIONS[at][1] + f * (STATIONS[at + 1][1] - STATIONS[at][1]);
      colours[i] = rgb(lightness, a, b);
    }
    return colours;
  }

  private static int rgb(double lightness, double a, double b) {
    double fy = (lightness + 16) / 116;
    double x = 0.95047 * inverse(fy + a / 500);
    double y = inverse(fy);
    double z = 1.08883 * inverse(fy - b / 200);
    // IEC 61966-2-1 (sRGB) primaries
    int red = channel(3.2406 * x - 1.5372 * y - 0.4986 * z);
    int green = channel(-0.9689 * x + 1.8758 * y + 0.0415 * z);
    int blue = channel(0.0557 * x - 0.2040 * y + 1.0570 * z);
    return red << 16 | green << 8 | blue;
  }

  private static double inverse(double f) {
    return f > 6.0 / 29 ? f * f * f : 3 * (6.0 / 29) * (6.0 / 29) * (f - 4.0 / 29);
  }

  private static int channel(double linear) {
    double l = Math.max(0, Math.min(1, linear));
    double s = l <= 0.0031308 ? 12.92 * l : 1.055 * StrictMath.pow(l, 1 / 2.4) - 0.055;
    return (int) Math.round(255 * s);
  }
}
