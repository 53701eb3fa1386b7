package org.groovemend.report;

import java.util.List;

/**
 * What became of the noise and of the music.
 *
 * @param sentence how it was measured, or why it was not
 * @param main the main figures
 * @param figures pictures of it
 * @param detail all figures
 */
public record Comparison(
    String sentence, List<NumberTable> main, List<Figure> figures, List<NumberTable> detail) {

  public Comparison {
    main = List.copyOf(main);
    figures = List.copyOf(figures);
    detail = List.copyOf(detail);
  }

  /** Nothing was compared. */
  public static Comparison none(String sentence) {
    return new Comparison(sentence, List.of(), List.of(), List.of());
  }
}
