package org.groovemend.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.groovemend.decisions.Decision;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.Verdict;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.support.ui.Select;

/** The page as a person has it: the program as a process of its own, and a real browser. */
@Tag("long")
class ReviewPageTest {

  private static final int SECONDS = 12;
  private static final int EDITS = 300;

  @TempDir static Path folder;
  private static Chromium browser;
  private static Path ledger;
  private static List<LedgerEdit> edits;
  private static Path file;
  private ReviewProcess review;

  @BeforeAll
  static void start() throws Exception {
    browser = Chromium.start();
    ledger = InventedLedger.write(folder, "side", (long) SECONDS * InventedLedger.RATE, EDITS, 2);
    Files.delete(folder.resolve("side.wav"));
    file = folder.resolve("side.decisions.json");
    edits = new ArrayList<>();
    Ledger.open(ledger).forEachEdit(edits::add);
  }

  @AfterAll
  static void end() {
    if (browser != null) {
      browser.close();
    }
  }

  @BeforeEach
  void open() throws IOException {
    Files.deleteIfExists(file);
    browser.viewport(1400, 1000, false);
    review = new ReviewProcess(ledger);
    browser.open(review.address());
  }

  @AfterEach
  void close() throws IOException {
    review.close();
  }

  private static DecisionFile onDisk() throws IOException {
    return DecisionDocument.read(file);
  }

  private static List<LedgerEdit> byDoubt() {
    return edits.stream()
        .sorted(Comparator.comparingDouble(e -> e.statistic() - e.threshold()))
        .toList();
  }

  private static long chosen() {
    String said = browser.text("verdict-head");
    return Long.parseLong(said.replaceFirst("(?s)Edit ([\\d,]+).*", "$1").replace(",", ""));
  }

  /** So many of the dots of a canvas are not the background. */
  private static long drawn(String canvas) {
    return (Long)
        browser.js(
            "const c = document.getElementById(arguments[0]);"
                + "const d = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;"
                + "const seen = new Set(); for (let i = 0; i < d.length; i += 4)"
                + " seen.add(d[i] << 16 | d[i + 1] << 8 | d[i + 2]); return seen.size",
            canvas);
  }

  @Test
  void opensWithTheMostDoubtfulEditAndWithoutAnyComplaint() throws Exception {
    assertThat(browser.text("title")).isEqualTo("side.wav");
    assertThat(browser.text("count")).isEqualTo("300 edits");
    assertThat(chosen()).isEqualTo(byDoubt().get(0).number());
    browser.untilText("files", "the transfer was put together again and proved");
    browser.until("return !location.href.includes('token')");
    assertThat(drawn("wave")).isGreaterThan(3);
    assertThat(drawn("strip")).isGreaterThan(2);
    browser.until(
        "const c = document.getElementById('spectra');"
            + "const d = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;"
            + "const seen = new Set(); for (let i = 0; i < d.length; i += 4)"
            + " seen.add(d[i] << 16 | d[i + 1] << 8 | d[i + 2]); return seen.size > 30");
    assertThat(browser.complaints()).isEmpty();
    assertThat(Files.exists(file)).as("looking decides nothing").isFalse();
  }

  @Test
  void seeksAndZooms() {
    String first = browser.id("strip").getDomAttribute("aria-valuetext");
    browser.press("+");
    browser.press(Keys.ARROW_RIGHT);
    browser.until(
        "return document.getElementById('strip').getAttribute('aria-valuetext') !== arguments[0]",
        first);
    browser.press("0");
    browser.until(
        "return document.getElementById('strip').getAttribute('aria-valuetext')"
            + ".startsWith('0:00.000 to 0:12.000, 300 edits')");
    browser.id("closer").click();
    browser.until(
        "return document.getElementById('strip').getAttribute('aria-valuetext')"
            + ".startsWith('0:03.000 to 0:09.000')");
    browser.id("strip").sendKeys(Keys.END);
    browser.until(
        "return document.getElementById('strip').getAttribute('aria-valuetext')"
            + ".startsWith('0:06.000 to 0:12.000')");
    for (int i = 0; i < 25; i++) {
      browser.press("+");
    }
    assertThat(drawn("wave")).isGreaterThan(3);
    browser.press("f");
    browser.untilText("verdict-head", "Edit " + chosen());
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void playsBeforeAfterAndWhatWasTakenAway() {
    new Select(browser.id("around")).selectByValue("4");
    // in a list of choices a digit is no key
    browser.id("list").click();
    browser.press("1");
    browser.untilText("heard", "Before, raised by");
    browser.until("return document.getElementById('hear-before').ariaPressed === 'true'");
    browser.press("2");
    browser.until("return document.getElementById('hear-after').ariaPressed === 'true'");
    browser.until("return document.getElementById('hear-before').ariaPressed === 'false'");
    browser.id("hear-removed").click();
    browser.untilText("heard", "Taken away, raised by");
    browser.press(Keys.ESCAPE);
    browser.id("list").click();
    browser.press(Keys.SPACE);
    browser.until("return document.getElementById('hear-removed').ariaPressed === 'false'");
    // to its own end, which may come between two looks
    new Select(browser.id("around")).selectByValue("0.5");
    browser.js(
        "window.seen = ''; const b = document.getElementById('hear-removed'); new MutationObserver("
            + "() => { window.seen += b.ariaPressed + ' '; }).observe(b, {attributes: true})");
    browser.id("hear-removed").click();
    browser.until("return /true .*false /.test(window.seen)");
    assertThat(browser.id("trouble").isDisplayed()).isFalse();
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void decidesCommentsRulesSignsAndIsThereAfterLoadingAgain() throws Exception {
    long doubtful = chosen();
    browser.id("verdict").findElement(By.cssSelector("[data-verdict=undo]")).click();
    browser.untilText("verdict-head", "to be undone");
    assertThat(onDisk().decisions().get(doubtful).verdict()).isEqualTo(Verdict.UNDO);
    browser.id("comment").sendKeys("a triangle – nicht stören \"<b>\"");
    browser.id("save-comment").click();
    browser.untilText("say", "The comment is saved");
    assertThat(onDisk().decisions().get(doubtful).comment())
        .isEqualTo("a triangle – nicht stören \"<b>\"");

    new Select(browser.id("r-verdict")).selectByValue("ask");
    new Select(browser.id("r-stage")).selectByValue("thumps");
    browser.id("r-to").sendKeys("0:06");
    long met =
        edits.stream()
            .filter(e -> e.stage().equals("thumps") && e.start() < 6 * InventedLedger.RATE)
            .count();
    browser.untilText("r-meets", "about " + met + " edit");
    browser.id("r-add").click();
    browser.untilText("rules", ": " + met + " met");
    assertThat(onDisk().rules().get(0).toFrame()).isEqualTo(6L * InventedLedger.RATE);
    assertThat(browser.text("sums")).contains("1 to undo").contains(met + " to ask");

    browser.untilText("files", "proved");
    browser.id("signer").sendKeys("B. Listener");
    browser.id("sign-off").click();
    browser.untilText("signed", "Signed off by B. Listener");
    assertThat(onDisk().signOff().by()).isEqualTo("B. Listener");
    byte[] signed = Files.readAllBytes(file);
    browser.press("k");
    browser.driver.navigate().refresh();
    browser.awaitReady();
    browser.untilText("signed", "Signed off by B. Listener");
    browser.untilText("rules", ": " + met + " met");
    browser.until("return document.getElementById('comment').value.startsWith('a triangle')");
    assertThat(browser.id("save-comment").isEnabled()).isFalse();
    assertThat(Files.readAllBytes(file)).isEqualTo(signed);

    browser.id("reopen").click();
    browser.until("return document.getElementById('signed').textContent === ''");
    assertThat(onDisk().signOff()).isNull();
    browser.id("rules").findElement(By.tagName("button")).click();
    browser.until("return document.getElementById('rules').children.length === 0");
    browser.id("back").click();
    browser.untilText("rules", ": " + met + " met");
    assertThat(browser.text("command"))
        .isEqualTo("groovemend undo " + ledger + " --decisions " + file);
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void aCommentIsSavedWhileItIsTypedAndWhenThePageGoesAway() throws Exception {
    long edit = chosen();
    browser.id("comment").sendKeys("half a th");
    awaitComment(edit, "half a th");
    browser.id("comment").sendKeys("ought");
    // no time for a pause: the page is loaded anew at once
    browser.js("location.reload()");
    awaitComment(edit, "half a thought");
    browser.awaitReady();
    browser.until("return document.getElementById('comment').value === 'half a thought'");
    browser.id("comment").sendKeys(", and");
    browser.js("location.href = 'about:blank'");
    awaitComment(edit, "half a thought, and");
    assertThat(onDisk().decisions()).containsOnlyKeys(edit);
  }

  private static void awaitComment(long edit, String expected) throws Exception {
    long until = System.nanoTime() + 20_000_000_000L;
    String found = null;
    while (!expected.equals(found) && System.nanoTime() < until) {
      Thread.sleep(50);
      Decision said = Files.exists(file) ? onDisk().decisions().get(edit) : null;
      found = said == null ? null : said.comment();
    }
    assertThat(found).isEqualTo(expected);
  }

  @Test
  void filtersAndFindsWhatWasDecided() {
    new Select(browser.id("f-stage")).selectByValue("thumps");
    long thumps = edits.stream().filter(e -> e.stage().equals("thumps")).count();
    browser.untilText("count", thumps + " of 300 edits");
    new Select(browser.id("f-channel")).selectByValue("1");
    long right = edits.stream().filter(e -> e.stage().equals("thumps") && e.channel() == 1).count();
    browser.untilText("count", right + " of 300 edits");
    new Select(browser.id("f-stage")).selectByValue("");
    new Select(browser.id("f-channel")).selectByValue("");
    new Select(browser.id("f-verdict")).selectByValue("undo");
    browser.untilText("count", "0 of 300 edits");
    browser.id("list").click();
    browser.press("u");
    browser.untilText("count", "1 of 300 edits");
  }

  @Test
  void aKillInTheMidstOfDecidingLosesNothingThatWasTold() throws Exception {
    browser.js(
        "window.told = []; window.go = (async () => { const api = await import('/api.js');"
            + " for (let n = 1; n <= 300; n++) { try { await api.post('decide',"
            + " {edit: n, verdict: n % 2 ? 'undo' : 'ask'}); window.told.push(n); }"
            + " catch (e) { window.lost = e.message; break; } } })();");
    browser.until("return window.told.length >= 25");
    review.kill();
    browser.until("return window.lost !== undefined");
    assertThat((String) browser.js("return window.lost")).contains("what was decided is saved");
    List<?> told = (List<?>) browser.js("return window.told");
    DecisionFile left = onDisk();
    assertThat(told.size()).isBetween(25, 299);
    // the one that was under way may be there or not
    assertThat(left.decisions().size()).isBetween(told.size(), told.size() + 1);
    review = new ReviewProcess(ledger);
    browser.open(review.address());
    for (Object number : told) {
      long n = ((Number) number).longValue();
      assertThat(onDisk().decisions().get(n).verdict())
          .isEqualTo(n % 2 == 1 ? Verdict.UNDO : Verdict.ASK);
    }
    assertThat(browser.text("sums")).contains((left.decisions().size() + 1) / 2 + " to undo");
    browser.press("k");
    browser.untilText("verdict-head", ", kept");
    assertThat(onDisk().decisions()).hasSizeGreaterThanOrEqualTo(told.size());
  }

  @Test
  void aSecondReviewIsRefusedAndTheFirstGoesOn() throws Exception {
    browser.press("u");
    browser.untilText("verdict-head", "to be undone");
    byte[] before = Files.readAllBytes(file);
    try (ReviewProcess second = new ReviewProcess(ledger, "--reviewer", "B. Other")) {
      assertThat(second.address()).isNull();
      assertThat(second.await()).isEqualTo(1);
      assertThat(second.errors()).contains("is open in another review").doesNotContain("\tat ");
    }
    assertThat(Files.readAllBytes(file)).isEqualTo(before);
    browser.press("m");
    browser.untilText("verdict-head", "marked for a person");
    browser.id("end").click();
    browser.untilText("facts", "The review is over");
    assertThat(review.await()).isZero();
    assertThat(Files.exists(folder.resolve("side.decisions.json.lock"))).isFalse();
    try (ReviewProcess third = new ReviewProcess(ledger)) {
      assertThat(third.address()).isNotNull();
    }
  }

  @Test
  void theKeyboardAloneIsEnough() throws Exception {
    List<LedgerEdit> doubt = byDoubt();
    browser.press("l");
    browser.press(Keys.ARROW_DOWN, Keys.ARROW_DOWN);
    browser.untilText("verdict-head", "Edit " + doubt.get(2).number());
    browser.press("u");
    browser.untilText("verdict-head", "to be undone");
    browser.press("c");
    browser.press("u is no key here");
    browser.pressWithControl(Keys.ENTER);
    browser.untilText("say", "The comment is saved");
    browser.press(Keys.ESCAPE);
    browser.press("n");
    browser.untilText("verdict-head", "Edit " + doubt.get(3).number());
    browser.press("m");
    browser.untilText("verdict-head", "marked for a person");
    browser.press("z");
    browser.untilText("verdict-head", "nothing decided");
    browser.press(Keys.END);
    browser.untilText("verdict-head", "Edit " + doubt.get(EDITS - 1).number());
    browser.press(Keys.HOME);
    browser.untilText("verdict-head", "Edit " + doubt.get(0).number());
    browser.press("s");
    browser.until("return document.getElementById('sort').value === 'time'");
    assertThat(onDisk().decisions()).containsOnlyKeys(doubt.get(2).number());
    assertThat(onDisk().decisions().get(doubt.get(2).number()).comment())
        .isEqualTo("u is no key here");

    // every control is reached by Tab, and where the focus is can be seen
    List<String> reached = new ArrayList<>();
    browser.js("document.activeElement.blur(); window.scrollTo(0, 0)");
    for (int i = 0; i < 80; i++) {
      browser.press(Keys.TAB);
      String id =
          (String)
              browser.js(
                  "const a = document.activeElement; return a.id || a.dataset.verdict || a.tagName");
      reached.add(id);
      Object outline =
          browser.js(
              "const s = getComputedStyle(document.activeElement);"
                  + " return document.activeElement === document.body || s.outlineStyle !== 'none'");
      assertThat(outline).as(id).isEqualTo(true);
    }
    assertThat(reached)
        .contains("strip", "sort", "list", "closer", "hear-before", "volume", "matched", "keep")
        .contains("undo", "ask", "comment", "back", "r-add", "signer", "sign-off", "copy", "end");
  }

  @Test
  void keysFasterThanAnswersAreAboutOneEditEach() throws Exception {
    List<LedgerEdit> doubt = byDoubt();
    browser.id("go-on").click();
    browser.js("document.activeElement.blur()");
    browser.js(
        "for (const key of ['u', 'u', 'm']) document.dispatchEvent("
            + "new KeyboardEvent('keydown', {key, bubbles: true}))");
    browser.untilText("verdict-head", "Edit " + doubt.get(3).number() + ", nothing decided");
    browser.untilText("say", "Edit " + doubt.get(2).number() + " is marked for a person");
    assertThat(onDisk().decisions())
        .containsOnlyKeys(doubt.get(0).number(), doubt.get(1).number(), doubt.get(2).number());
    assertThat(onDisk().decisions().get(doubt.get(1).number()).verdict()).isEqualTo(Verdict.UNDO);
    assertThat(onDisk().decisions().get(doubt.get(2).number()).verdict()).isEqualTo(Verdict.ASK);
  }

  @Test
  void wordsTypedBeforeTheAnswerComesAreKept() throws Exception {
    List<LedgerEdit> doubt = byDoubt();
    String type =
        "const say = (words) => { const box = document.getElementById('comment'); box.value = words;"
            + " box.dispatchEvent(new Event('input', {bubbles: true})); };"
            + "const press = (key) => document.body.dispatchEvent("
            + "new KeyboardEvent('keydown', {key, bubbles: true}));";
    browser.js("document.activeElement.blur()");
    // all within one task of the page: no answer can have come between
    browser.js(type + "press('ArrowDown'); say('a drum'); press('ArrowDown'); say('not a drum');");
    awaitComment(doubt.get(1).number(), "a drum");
    awaitComment(doubt.get(2).number(), "not a drum");
    browser.js(type + "press('ArrowUp'); say('or is it?');");
    awaitComment(doubt.get(1).number(), "a drum or is it?");
    assertThat(onDisk().decisions().values()).allMatch(decision -> decision.verdict() == null);
    browser.untilText("verdict-head", "nothing decided");
  }

  @Test
  void everyControlHasANameAndEveryPictureWords() {
    List<?> nameless =
        (List<?>)
            browser.js(
                "return [...document.querySelectorAll('button,input,select,textarea,canvas,[role]')]"
                    + ".filter(e => e.offsetParent !== null && e.role !== 'status').filter(e => !(e.ariaLabel ||"
                    + " e.getAttribute('aria-label') || e.textContent.trim() ||"
                    + " (e.labels && e.labels.length))).map(e => e.outerHTML)");
    assertThat(nameless).isEmpty();
    assertThat(browser.id("list").getDomAttribute("aria-activedescendant"))
        .isEqualTo("edit-" + (chosen() - 1));
    assertThat(
            browser
                .driver
                .findElement(By.cssSelector("[aria-selected=true]"))
                .getDomAttribute("aria-setsize"))
        .isEqualTo("300");
  }

  @Test
  void singleKeysCanBeSwitchedOff() {
    browser.press("?");
    browser.until("return document.getElementById('help').open");
    browser.id("keys-on").click();
    browser.js("document.activeElement.blur()");
    browser.press("u");
    browser.press(Keys.ARROW_DOWN);
    browser.untilText("verdict-head", "Edit " + byDoubt().get(1).number());
    browser.press(Keys.ARROW_UP);
    browser.untilText("verdict-head", "Edit " + byDoubt().get(0).number() + ", nothing decided");
    assertThat(Files.exists(file)).isFalse();
  }

  @Test
  void aNarrowWindowHoldsEverythingWithoutScrollingSideways() throws IOException {
    for (boolean dark : new boolean[] {false, true}) {
      browser.viewport(360, 740, dark);
      browser.until("return document.documentElement.scrollWidth <= window.innerWidth");
      browser.until("return document.getElementById('wave').clientWidth < 360");
      assertThat(browser.id("list").isDisplayed()).isTrue();
      assertThat(browser.id("sign-off").isDisplayed()).isTrue();
    }
    browser.press("u");
    browser.untilText("verdict-head", "to be undone");
  }

  @Test
  void twoWindowsOfOneReviewSeeEachOther() {
    String first = browser.driver.getWindowHandle();
    browser.driver.switchTo().newWindow(org.openqa.selenium.WindowType.TAB);
    browser.open(review.address());
    browser.press("u");
    browser.untilText("verdict-head", "to be undone");
    browser.driver.close();
    browser.driver.switchTo().window(first);
    browser.untilText("sums", "1 to undo");
  }
}
