package org.groovemend.report;

/** The colours of every page of ours as variables of its style sheet, light or dark. */
public final class PageColours {

  private static final String DARK =
      variables(
          Palette.DARK_PAPER,
          Palette.DARK_INK,
          Palette.DARK_MUTED,
          Palette.DARK_RULE,
          Palette.DARK_BEFORE,
          Palette.DARK_AFTER);
  static final String LIGHT =
      variables(
          Palette.PAPER,
          Palette.INK,
          Palette.MUTED,
          Palette.RULE,
          Palette.BEFORE_DEEP,
          Palette.AFTER_DEEP);

  /**
   * Declares {@code --paper --ink --muted --rule --before --after} on the root element, and that
   * both schemes are provided for.
   */
  public static final String CSS =
      ":root{color-scheme:light dark;"
          + LIGHT
          + "}\n@media (prefers-color-scheme:dark){:root{"
          + DARK
          + "}}\n";

  private PageColours() {}

  private static String variables(int paper, int ink, int muted, int rule, int before, int after) {
    return "--paper:"
        + Palette.css(paper)
        + ";--ink:"
        + Palette.css(ink)
        + ";--muted:"
        + Palette.css(muted)
        + ";--rule:"
        + Palette.css(rule)
        + ";--before:"
        + Palette.css(before)
        + ";--after:"
        + Palette.css(after);
  }
}
