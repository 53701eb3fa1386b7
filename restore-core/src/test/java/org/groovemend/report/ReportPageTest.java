package org.groovemend.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXParseException;

class ReportPageTest {

  private static final String NASTY = "<script>alert('1 & \"2\"')</script>\u0000\u202egpj.\ud800";
  private static final byte[] PNG =
      Pictures.edits(new EditDensityBuilder(AudioFormat.pcm(8_000, 1, 16), 100, 10).build());

  private static ReportInput input(String any) {
    Fact fact = new Fact(any, any, any, any);
    Figure figure = new Figure(any, any, any, PNG);
    return new ReportInput(
        new ReportInput.Heading(any, any, any, any),
        List.of(new FileEntry(any, any, 5, any), new FileEntry(any, any, -1, "")),
        List.of(fact),
        List.of(fact),
        List.of(
            new StageAccount(any, true, any, List.of(fact), 1234567, 9, 0.5, -40.04, -3),
            new StageAccount(any, true, any, List.of(), -1, 9, 0.5, Double.NaN, -3),
            new StageAccount(any, false, any, List.of(), 0, 0, 0, Double.NaN, Double.NaN)),
        List.of(figure),
        new Comparison(
            any,
            List.of(new NumberTable(any, List.of(any, any), List.of(List.of(any, any)), any)),
            List.of(figure),
            List.of(new NumberTable(any, List.of(any, any), List.of(List.of(any, any)), ""))),
        new ReportInput.EditAccount(
            2,
            96_000,
            2,
            List.of(figure),
            List.of(new EditLine(7, any, 1, 96_000L * 3725, 96_000L * 3725 + 96, 5, 4, any, -60)),
            any),
        List.of(any),
        List.of(new Command(any, any)),
        new Listening(
            any,
            List.of(
                new Listening.Place(
                    any, any, any, List.of(new Listening.Sound(any, new byte[] {1, 2, 3}))))));
  }

  private static String page(ReportInput input) throws IOException {
    StringBuilder out = new StringBuilder();
    ReportPage.write(input, out);
    return out.toString();
  }

  private static Document parse(String page) throws Exception {
    DocumentBuilder builder = DocumentBuilderFactory.newInstance().newDocumentBuilder();
    builder.setErrorHandler(null);
    return builder.parse(new InputSource(new StringReader(page)));
  }

  private static List<Element> elements(Document page, String name) {
    NodeList nodes = page.getElementsByTagName(name);
    List<Element> list = new ArrayList<>();
    for (int i = 0; i < nodes.getLength(); i++) {
      list.add((Element) nodes.item(i));
    }
    return list;
  }

  @Test
  void pageIsWellFormedWhateverTheTextsHold() throws Exception {
    Document page = parse(page(input(NASTY)));
    assertThat(elements(page, "script")).isEmpty();
    assertThat(elements(page, "h1").get(0).getTextContent().strip())
        .isEqualTo("<script>alert('1 & \"2\"')</script>\ufffd\ufffdgpj.\ufffd");
    assertThat(elements(page, "title").get(0).getTextContent()).contains("<script>");
  }

  @Test
  void checkForWellFormednessCanFail() throws Exception {
    String broken = page(input("x")).replaceFirst("</section>", "");
    assertThatThrownBy(() -> parse(broken)).isInstanceOf(SAXParseException.class);
  }

  @Test
  void nothingIsLoadedFromOutsideAndNothingRuns() throws Exception {
    String text = page(input("x"));
    // base64 may contain two slashes in a row
    assertThat(text.replaceAll("base64,[A-Za-z0-9+/=]*", ""))
        .doesNotContain("http:", "https:", "//", "@import", "url(");
    Document page = parse(text);
    assertThat(elements(page, "link")).isEmpty();
    assertThat(elements(page, "a")).isEmpty();
    for (Element element : elements(page, "*")) {
      for (int i = 0; i < element.getAttributes().getLength(); i++) {
        assertThat(element.getAttributes().item(i).getNodeName()).doesNotStartWith("on");
      }
    }
    for (Element image : elements(page, "img")) {
      assertThat(image.getAttribute("src")).startsWith("data:image/png;base64,");
    }
    assertThat(elements(page, "meta"))
        .anyMatch(m -> m.getAttribute("content").startsWith("default-src 'none'"));
  }

  @Test
  void pageCanBeReadWithoutSight() throws Exception {
    Document page = parse(page(input("words")));
    assertThat(page.getDocumentElement().getAttribute("lang")).isEqualTo("en");
    assertThat(elements(page, "h1")).hasSize(1);
    assertThat(elements(page, "h2")).hasSize(9);
    assertThat(elements(page, "img"))
        .hasSize(3)
        .allSatisfy(
            i -> {
              assertThat(i.getAttribute("alt")).isEqualTo("words");
              assertThat(i.getAttribute("width")).isEqualTo("1200");
            });
    assertThat(elements(page, "th"))
        .isNotEmpty()
        .allSatisfy(t -> assertThat(t.getAttribute("scope")).isIn("row", "col"));
    assertThat(elements(page, "table"))
        .allSatisfy(t -> assertThat(t.getElementsByTagName("caption").getLength()).isEqualTo(1));
    List<String> ids = elements(page, "h2").stream().map(h -> h.getAttribute("id")).toList();
    assertThat(ids).doesNotHaveDuplicates();
    assertThat(elements(page, "section"))
        .allSatisfy(s -> assertThat(s.getAttribute("aria-labelledby")).isIn(ids));
  }

  @Test
  void clipsAreInThePageNamedAndAfterTheWordsOfCare() throws Exception {
    String text = page(input("words"));
    Document page = parse(text);
    assertThat(elements(page, "audio"))
        .hasSize(1)
        .allSatisfy(
            a -> {
              assertThat(a.getAttribute("src")).isEqualTo("data:audio/flac;base64,AQID");
              assertThat(a.getAttribute("aria-label")).isEqualTo("words, words: words");
              assertThat(a.hasAttribute("controls")).isTrue();
              assertThat(a.hasAttribute("autoplay")).isFalse();
            });
    assertThat(text.indexOf("<audio")).isGreaterThan(text.indexOf("Start with the level"));
    // in HTML an audio element that closes itself would swallow what follows
    assertThat(text).contains("</audio>");
    assertThat(elements(page, "meta"))
        .anyMatch(m -> m.getAttribute("content").contains("media-src data:;"));
  }

  @Test
  void numbersArePrintedWithTheirUnits() throws Exception {
    String text = parse(page(input("x"))).getDocumentElement().getTextContent();
    assertThat(text)
        .contains("1,234,567", "-40.0 dBFS", "1:02:05.000", "96 (1.000 ms)", "whole signal")
        .contains("see ledger", "2 places were edited singly");
    assertThat(Printed.time(0, 44_100)).isEqualTo("0:00.000");
    assertThat(Printed.time(5_291_999, 44_100)).isEqualTo("2:00.000"); // 119.99998 s
    assertThat(Printed.dbfs(Double.NEGATIVE_INFINITY)).isEqualTo("none");
  }

  @Test
  void emptyPartsAreSaidInWords() throws Exception {
    ReportInput empty =
        new ReportInput(
            new ReportInput.Heading("side", "p", "t", "s"),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            Comparison.none("Nothing to compare."),
            new ReportInput.EditAccount(0, 8_000, 1, List.of(), List.of(), ""),
            List.of(),
            List.of(),
            Listening.none("Nothing to hear."));
    String text = parse(page(empty)).getDocumentElement().getTextContent();
    assertThat(text)
        .contains("No treatment was asked for.", "No place was edited singly.", "No pictures")
        .contains("no measurement replaces listening")
        .contains("Nothing to compare.", "Nothing to hear.");
    assertThat(page(empty)).doesNotContain("<audio");
  }

  @Test
  void listeningCautionIsAlwaysThere() throws Exception {
    assertThat(page(input("x"))).contains("Start with the level right down");
  }

  @Test
  void pictureThatIsNoPngIsRefused() {
    ReportInput good = input("x");
    Figure bad = new Figure("t", "a", "c", new byte[30]);
    ReportInput input =
        new ReportInput(
            good.heading(),
            good.files(),
            good.side(),
            good.found(),
            good.stages(),
            List.of(bad),
            good.comparison(),
            good.edits(),
            good.cautions(),
            good.commands(),
            good.listening());
    assertThatThrownBy(() -> page(input))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("picture of 30 bytes is not a PNG file");
  }
}
