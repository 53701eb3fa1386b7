package org.groovemend.report;

/**
 * The colours of page and pictures, 0xRRGGBB.
 *
 * <p>Ink on paper; orange is before, blue is after: a pair that stays apart in the common colour
 * deficiencies and in grey. Contrasts are checked in {@code PaletteTest} by the formula of WCAG 2.
 */
final class Palette {

  static final int PAPER = 0xf7f3ea;
  static final int INK = 0x23272b;
  static final int MUTED = 0x565a5e;
  static final int RULE = 0xcfc7b6;
  static final int BEFORE = 0xcc6a1f;
  static final int BEFORE_DEEP = 0x8f4511;
  static final int AFTER = 0x3f82b8;
  static final int AFTER_DEEP = 0x17507f;

  static final int DARK_PAPER = 0x1c2023;
  static final int DARK_INK = 0xe8e3d8;
  static final int DARK_MUTED = 0xaeaba2;
  static final int DARK_RULE = 0x454b50;
  static final int DARK_BEFORE = 0xefa766;
  static final int DARK_AFTER = 0x8fc0e8;

  private Palette() {}

  static String css(int colour) {
    return String.format(java.util.Locale.ROOT, "#%06x", colour);
  }
}
