package org.groovemend.report;

import java.util.List;

/**
 * A page of sections: what it is, and what stands in it.
 *
 * @param kind what sort of page: "Audit"
 * @param title whose
 * @param summary the outcome in one or two sentences
 * @param made by what program and when
 * @param sections in order
 * @param signature whether it ends in a line to sign
 */
public record SheetInput(
    String kind,
    String title,
    String summary,
    String made,
    List<Section> sections,
    boolean signature) {

  /**
   * A numbered section.
   *
   * @param title of it
   * @param sentences paragraphs
   * @param facts table of label, value, sentence
   * @param factsCaption what they are
   * @param tables of numbers
   * @param figures pictures
   */
  public record Section(
      String title,
      List<String> sentences,
      List<Fact> facts,
      String factsCaption,
      List<NumberTable> tables,
      List<Figure> figures) {
    public Section {
      sentences = List.copyOf(sentences);
      facts = List.copyOf(facts);
      tables = List.copyOf(tables);
      figures = List.copyOf(figures);
    }
  }

  public SheetInput {
    sections = List.copyOf(sections);
  }
}
