package org.groovemend.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

class CollectionPageTest {

  private static Document page(CollectionSheet.Section... sections) throws Exception {
    StringBuilder text = new StringBuilder();
    CollectionPage.write(
        new CollectionSheet("Overview", "cleaned", "All is done.", "Made today", List.of(sections)),
        text);
    byte[] xml = text.toString().getBytes(StandardCharsets.UTF_8);
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new ByteArrayInputStream(xml));
  }

  private static CollectionSheet.Section section(String title, List<Fact> facts) {
    return new CollectionSheet.Section(title, List.of(), facts, List.of(), List.of(), List.of());
  }

  private static List<Element> elements(Document page, String name) {
    List<Element> found = new ArrayList<>();
    NodeList all = page.getElementsByTagName(name);
    for (int i = 0; i < all.getLength(); i++) {
      found.add((Element) all.item(i));
    }
    return found;
  }

  @Test
  void aTableOfFactsIsNamedByTheHeadingOverItAndRepeatsItNot() throws Exception {
    Document page =
        page(
            section("Sums", List.of(Fact.of("Done", "7", ""))),
            section("Others", List.of(Fact.of("Left", "2", ""))));
    assertThat(elements(page, "caption")).isEmpty();
    List<Element> tables = elements(page, "table");
    assertThat(tables).hasSize(2);
    List<String> headings = new ArrayList<>();
    for (Element table : tables) {
      String id = table.getAttribute("aria-labelledby");
      for (Element heading : elements(page, "h2")) {
        if (heading.getAttribute("id").equals(id)) {
          headings.add(heading.getTextContent());
        }
      }
    }
    assertThat(headings).containsExactly("1Sums", "2Others");
  }
}
