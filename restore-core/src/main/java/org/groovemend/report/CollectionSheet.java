package org.groovemend.report;

import java.util.List;

/**
 * A page about many sides.
 *
 * @param kind what sort of page
 * @param title whose
 * @param summary the outcome in one or two sentences
 * @param made by what program and when
 * @param sections in order
 */
public record CollectionSheet(
    String kind, String title, String summary, String made, List<Section> sections) {

  /**
   * A numbered section.
   *
   * @param title of it
   * @param sentences paragraphs
   * @param facts table of label, value, sentence
   * @param tables of sides
   * @param numbers tables of numbers
   * @param spreads how measures lie
   */
  public record Section(
      String title,
      List<String> sentences,
      List<Fact> facts,
      List<SideTable> tables,
      List<NumberTable> numbers,
      List<Histogram> spreads) {
    public Section {
      sentences = List.copyOf(sentences);
      facts = List.copyOf(facts);
      tables = List.copyOf(tables);
      numbers = List.copyOf(numbers);
      spreads = List.copyOf(spreads);
    }
  }

  public CollectionSheet {
    sections = List.copyOf(sections);
  }
}
