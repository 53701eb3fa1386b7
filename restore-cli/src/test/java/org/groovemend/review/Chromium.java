package org.groovemend.review;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.Closeable;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.logging.Level;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.WebDriverWait;

/**
 * Debian's browser, driven through its own driver; nothing is downloaded. Packages {@code chromium}
 * and {@code chromium-driver}, which {@code .ci/run} installs.
 */
final class Chromium implements Closeable {

  private static final Duration PATIENCE = Duration.ofSeconds(60);

  final ChromeDriver driver;

  private Chromium(ChromeDriver driver) {
    this.driver = driver;
  }

  /** Starts it, or has the test skipped where it is not installed. */
  static Chromium start(String... more) {
    File browser = onPath("chromium");
    File helper = onPath("chromedriver");
    assumeTrue(
        browser != null && helper != null,
        "chromium and chromium-driver are not installed: the page is NOT tested in a browser here");
    ChromeOptions options = new ChromeOptions();
    options.setBinary(browser);
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-dev-shm-usage",
        "--window-size=1400,1000",
        "--autoplay-policy=no-user-gesture-required",
        "--mute-audio");
    options.addArguments(more);
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.ALL);
    options.setCapability("goog:loggingPrefs", logs);
    ChromeDriverService service =
        new ChromeDriverService.Builder().usingDriverExecutable(helper).build();
    return new Chromium(new ChromeDriver(service, options));
  }

  private static File onPath(String name) {
    return Arrays.stream(Objects.requireNonNullElse(System.getenv("PATH"), "").split(":"))
        .map(folder -> Path.of(folder, name))
        .filter(Files::isExecutable)
        .map(Path::toFile)
        .findFirst()
        .orElse(null);
  }

  /** Opens a review and waits until it can be worked with; gives the milliseconds it took. */
  long open(String address) {
    driver.get("about:blank");
    // what a page before this one complained about when its program was ended
    complaints();
    driver.get(address);
    return awaitReady();
  }

  long awaitReady() {
    until("return document.documentElement.dataset.readyMs !== undefined");
    return ((Number) js("return Number(document.documentElement.dataset.readyMs)")).longValue();
  }

  Object js(String script, Object... arguments) {
    return driver.executeScript(script, arguments);
  }

  /** Waits for a script to say true. */
  void until(String script, Object... arguments) {
    new WebDriverWait(driver, PATIENCE)
        .withMessage(() -> script + "\n" + driver.findElement(By.tagName("body")).getText())
        .until(any -> Boolean.TRUE.equals(js(script, arguments)));
  }

  void untilText(String id, String part) {
    until(
        "return document.getElementById(arguments[0]).textContent.includes(arguments[1])",
        id,
        part);
  }

  String text(String id) {
    return (String) js("return document.getElementById(arguments[0]).textContent", id);
  }

  WebElement id(String id) {
    return driver.findElement(By.id(id));
  }

  /** Presses keys, wherever the focus is. */
  void press(CharSequence... keys) {
    new Actions(driver).sendKeys(keys).perform();
  }

  void pressWithControl(Keys key) {
    new Actions(driver).keyDown(Keys.CONTROL).sendKeys(key).keyUp(Keys.CONTROL).perform();
  }

  /** The size of the window inside, without the browser's own least width. */
  void viewport(int width, int height, boolean dark) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of(
            "features",
            List.of(Map.of("name", "prefers-color-scheme", "value", dark ? "dark" : "light"))));
  }

  /** What the page or the browser complained about. */
  List<String> complaints() {
    Collection<LogEntry> logs = driver.manage().logs().get(LogType.BROWSER).getAll();
    return logs.stream()
        .filter(entry -> entry.getLevel().intValue() >= Level.WARNING.intValue())
        .map(LogEntry::getMessage)
        .toList();
  }

  void picture(Path file) throws IOException {
    Files.write(file, driver.getScreenshotAs(OutputType.BYTES));
  }

  @Override
  public void close() {
    driver.quit();
  }
}
