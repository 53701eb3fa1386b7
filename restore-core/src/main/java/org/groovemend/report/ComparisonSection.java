package org.groovemend.report;

import java.io.IOException;

/** What became of the noise and of the music. */
final class ComparisonSection {

  private final PageParts parts;

  ComparisonSection(PageParts parts) {
    this.parts = parts;
  }

  void write(Comparison comparison) throws IOException {
    parts.open("Noise floor, onsets and decays");
    parts.html().element("p", comparison.sentence());
    for (NumberTable table : comparison.main()) {
      parts.table(table);
    }
    for (Figure figure : comparison.figures()) {
      parts.figure(figure);
    }
    for (NumberTable table : comparison.detail()) {
      parts.table(table);
    }
    parts.html().end();
  }
}
