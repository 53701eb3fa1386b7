package org.groovemend.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.groovemend.batch.InventedCatalogue;
import org.groovemend.cli.RunOverview;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

/** The overview of a collection in a real browser; it stands here, where the browser is. */
@Tag("long")
class OverviewPageTest {

  @TempDir private static Path dir;
  private static Chromium browser;

  @BeforeAll
  static void open() throws IOException {
    browser = Chromium.start();
    InventedCatalogue.write(dir, 60);
    Path page = Files.createDirectories(dir.resolve("sides/shelf/box00"));
    Files.writeString(page.resolve("side 0005 ü.report.html"), "<p>a page</p>");
    assertThat(RunOverview.on(dir)).isZero();
    browser.driver.get(dir.resolve("overview.html").toUri().toString());
    browser.until("return document.documentElement.dataset.ready === 'yes'");
  }

  @AfterAll
  static void close() {
    if (browser != null) {
      browser.close();
    }
  }

  private static final String WORST =
      "document.querySelector('section[aria-labelledby=part-3] table.sides')";

  @SuppressWarnings("unchecked")
  private static List<String> weights() {
    return (List<String>)
        browser.js(
            "return Array.from("
                + WORST
                + ".tBodies[0].rows).map(function (r) { return r.cells[1].dataset.v; })");
  }

  private static List<Double> numbers() {
    List<Double> numbers = new ArrayList<>();
    weights().forEach(text -> numbers.add(Double.valueOf(text)));
    return numbers;
  }

  @Test
  void keysAloneReachAndSortATable() {
    browser.driver.navigate().refresh();
    browser.until("return document.documentElement.dataset.ready === 'yes'");
    List<Double> written = numbers();
    List<Double> falling = new ArrayList<>(written);
    falling.sort(Collections.reverseOrder());
    assertThat(written).hasSizeGreaterThanOrEqualTo(3).isEqualTo(falling);
    // focus goes through the page in the order in which it is read
    List<String> order = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      browser.press(Keys.TAB);
      String what =
          (String)
              browser.js(
                  "var e = document.activeElement; return e.tagName + ' ' + e.textContent.trim()");
      order.add(what);
      if (Boolean.TRUE.equals(
          browser.js(
              "var e = document.activeElement; return e.tagName === 'BUTTON' ? e.textContent ==="
                  + " 'Weight' : false"))) {
        break;
      }
    }
    assertThat(order.get(0)).isEqualTo("A To the contents");
    assertThat(order.subList(1, 6))
        .containsExactly(
            "A Sums", "A Failures", "A Worst first", "A Hear these", "A How the collection lies");
    assertThat(order.get(order.size() - 1)).isEqualTo("BUTTON Weight");
    browser.press(Keys.ENTER);
    assertThat(browser.js("return document.activeElement.parentNode.getAttribute('aria-sort')"))
        .isEqualTo("descending");
    assertThat(numbers()).isEqualTo(falling);
    browser.press(Keys.SPACE);
    assertThat(browser.js("return document.activeElement.parentNode.getAttribute('aria-sort')"))
        .isEqualTo("ascending");
    List<Double> rising = new ArrayList<>(falling);
    Collections.reverse(rising);
    assertThat(numbers()).isEqualTo(rising);
    assertThat(browser.text("status")).contains("sorted by Weight, from low to high");
  }

  @Test
  void aCommandLineIsCopiedAndALinkLeadsToTheSidesPage() {
    String line = (String) browser.js("return document.querySelector('code.line').textContent");
    assertThat(line).startsWith("groovemend review ").contains("ledger.jsonl");
    browser.js("document.querySelector('button.copy').focus()");
    browser.press(Keys.ENTER);
    assertThat(browser.text("status")).contains(line);
    // seen where one looks, too
    assertThat(browser.js("return document.activeElement.textContent")).isEqualTo("copied");
    String address =
        (String) browser.js("return document.querySelector('table.sides a[href]').href");
    assertThat(address)
        .isEqualTo(
            dir.resolve("sides/shelf/box00/side 0005 ü.report.html").toUri().toASCIIString());
  }

  @Test
  void nothingIsLoadedAndNothingComplainedAbout() {
    assertThat(browser.complaints()).isEmpty();
    assertThat(browser.js("return performance.getEntriesByType('resource').length")).isEqualTo(0L);
  }

  @Test
  void itFitsANarrowScreenInLightAndDark() throws IOException {
    for (boolean dark : new boolean[] {false, true}) {
      browser.viewport(400, 900, dark);
      assertThat(
              (Boolean)
                  browser.js(
                      "return document.documentElement.scrollWidth >"
                          + " document.documentElement.clientWidth + 1"))
          .isFalse();
      browser.viewport(1400, 1000, dark);
      String paper = (String) browser.js("return getComputedStyle(document.body).backgroundColor");
      assertThat(paper).isEqualTo(dark ? "rgb(28, 32, 35)" : "rgb(247, 243, 234)");
    }
  }
}
