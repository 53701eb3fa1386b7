package org.groovemend.review;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;

/**
 * Measures in the browser how fast the page is; no test, as it depends on the machine.
 *
 * <p>{@code main LEDGER}: the figures of docs/explanation/review.md, which says how to call it.
 */
public final class ReviewMeasure {

  private static final int OPENINGS = 5;

  private final Chromium browser;

  private ReviewMeasure(Chromium browser) {
    this.browser = browser;
  }

  public static void main(String[] args) throws Exception {
    Path ledger = Path.of(args[0]);
    System.out.println("load average " + load());
    long begun = System.nanoTime();
    try (ReviewProcess review = new ReviewProcess(ledger);
        Chromium browser = Chromium.start()) {
      tell("program started, ledger checked", (System.nanoTime() - begun) / 1e6);
      new ReviewMeasure(browser).all(review);
      System.out.println("most memory of the program: " + memory(review.process.pid()));
    }
    System.out.println("load average " + load());
  }

  private void all(ReviewProcess review) throws InterruptedException {
    browser.viewport(1400, 1000, false);
    frames("an empty page", "document.body.textContent = n");
    List<Double> openings = new ArrayList<>();
    for (int i = 0; i < OPENINGS; i++) {
      openings.add((double) browser.open(review.address()));
      if (i == 0) {
        tell("page ready, first time, side still being read", openings.get(0));
        while (browser.text("files").startsWith("Reading")) {
          Thread.sleep(200);
        }
      }
    }
    spread("page ready, again", openings.subList(1, OPENINGS));
    String list = "const l = document.getElementById('list'); l.scrollTop ";
    frames("list scrolled steadily", list + "+= 90");
    frames("list, anywhere at each frame", list + "= Math.random() * l.scrollHeight");
    frames(
        "waveform moved",
        "document.getElementById('later').click(); if (n % 40 === 39)"
            + " document.getElementById('strip').dispatchEvent("
            + "new KeyboardEvent('keydown', {key: 'Home'}))");
    List<Double> steps = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      steps.add(step(i));
    }
    spread("key to next edit drawn", steps);
    List<Double> decisions = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      decisions.add(
          number(
              "const done = arguments[0]; (async () => { const api = await import('/api.js');"
                  + " const t = performance.now(); await api.post('decide', {edit: "
                  + (i * 37 + 1)
                  + ", verdict: 'undo'}); done(performance.now() - t); })();"));
    }
    spread("decision on the disk", decisions);
    spread("spectrogram tile, whole side", tiles(12));
    spread("spectrogram tile, a second", tiles(6));
  }

  private double step(int i) {
    return number(
        "const done = arguments[0]; const t = performance.now();"
            + " document.getElementById('list').dispatchEvent(new KeyboardEvent('keydown',"
            + " {key: 'ArrowDown', bubbles: true})); requestAnimationFrame(() =>"
            + " requestAnimationFrame(() => done(performance.now() - t)));");
  }

  private List<Double> tiles(int level) {
    List<Double> all = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      all.add(
          number(
              "const done = arguments[0]; (async () => { const api = await import('/api.js');"
                  + " const t = performance.now(); await api.blob('spectrogram', {side: 'after', level: "
                  + level
                  + ", tile: "
                  + (i + 3)
                  + "}); done(performance.now() - t); })();"));
    }
    return all;
  }

  private double number(String script) {
    return ((Number) browser.driver.executeAsyncScript(script)).doubleValue();
  }

  /** Times between 300 frames while something is done at each. */
  private void frames(String what, String act) {
    List<?> times =
        (List<?>)
            browser.driver.executeAsyncScript(
                "const done = arguments[0]; const d = []; let last = performance.now(), n = 0;"
                    + " function f() { const now = performance.now(); d.push(now - last); last = now; "
                    + act
                    + "; if (++n < 310) requestAnimationFrame(f); else done(d.slice(10)); }"
                    + " requestAnimationFrame(f);");
    List<Double> all = new ArrayList<>();
    times.forEach(t -> all.add(((Number) t).doubleValue()));
    spread("between frames, " + what, all);
    System.out.println(
        "    longer than 50 ms: " + all.stream().filter(t -> t > 50).count() + " of " + all.size());
  }

  private static void spread(String what, List<Double> values) {
    List<Double> sorted = new ArrayList<>(values);
    Collections.sort(sorted);
    System.out.printf(
        Locale.ROOT,
        "%s: median %.1f ms, 95 %% %.1f ms, longest %.1f ms%n",
        what,
        sorted.get(sorted.size() / 2),
        sorted.get((int) (sorted.size() * 0.95)),
        sorted.get(sorted.size() - 1));
  }

  private static void tell(String what, double ms) {
    System.out.printf(Locale.ROOT, "%s: %.0f ms%n", what, ms);
  }

  private static String load() throws IOException {
    Path told = Path.of("/proc/loadavg");
    return Files.exists(told) ? Files.readString(told).strip() : "not told by this system";
  }

  private static String memory(long pid) throws IOException {
    Path told = Path.of("/proc/" + pid + "/status");
    return Files.exists(told)
        ? Files.readAllLines(told).stream()
            .filter(line -> line.startsWith("VmHWM"))
            .findFirst()
            .orElse("")
            .replaceAll("\\s+", " ")
        : "not told by this system";
  }
}
