package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import org.groovemend.chain.Progress;
import org.junit.jupiter.api.Test;

class ProgressBarTest {

  private static final long SECOND = 1_000_000_000L;

  private final ByteArrayOutputStream written = new ByteArrayOutputStream();
  private long now = 5 * SECOND;
  private final ProgressBar bar =
      new ProgressBar(
          new PrintStream(written, true, StandardCharsets.UTF_8), () -> now, "side.wav");

  private String text() {
    return written.toString(StandardCharsets.UTF_8);
  }

  @Test
  void lineSaysSideStepShareAndTimeLeft() {
    bar.at("clicks", 0, 100);
    String line = bar.line(50, 100, 10 * SECOND);
    // half done in ten seconds: the other half takes ten more
    assertEquals(
        "side.wav  clicks       [===============               ]  50 % 10 s left     ", line);
    assertEquals(
        "side.wav  clicks       [==============================] 100 %               ",
        bar.line(100, 100, 10 * SECOND));
  }

  @Test
  void timeLeftIsNotGuessedFromTooLittle() {
    assertFalse(bar.line(50, 100, SECOND / 2).contains("left"), "half a second is no ground");
    assertFalse(bar.line(1, 100, 60 * SECOND).contains("left"), "one per cent is no ground");
    assertTrue(bar.line(3, 100, 60 * SECOND).contains("32:20 min left"));
  }

  @Test
  void anEmptySideIsDone() {
    assertTrue(bar.line(0, 0, 0).contains("100 %"));
  }

  @Test
  void durationsReadAsPeopleSayThem() {
    assertEquals("0 s", ProgressBar.duration(0.2));
    assertEquals("59 s", ProgressBar.duration(59.4));
    assertEquals("1:00 min", ProgressBar.duration(59.6));
    assertEquals("12:05 min", ProgressBar.duration(725));
    assertEquals("2:03 h", ProgressBar.duration(7390));
  }

  @Test
  void redrawsAtMostFiveTimesASecondButAlwaysAtTheEnd() {
    bar.at("clicks", 1, 100);
    int once = text().length();
    now += SECOND / 10;
    bar.at("clicks", 2, 100);
    assertEquals(once, text().length(), "too soon to draw again");
    bar.at("clicks", 100, 100);
    assertTrue(text().length() > once, "the end is always drawn");
  }

  @Test
  void aNewStepStartsItsOwnClock() {
    bar.at("clicks", 1, 100);
    now += 100 * SECOND;
    bar.at("noise", 50, 100);
    assertTrue(text().contains("noise"));
    assertFalse(text().contains("left"), "the hundred seconds belong to the step before");
  }

  @Test
  void clearWipesTheWholeLineAndOnlyIfOneWasDrawn() {
    ProgressBar.clear(bar);
    assertEquals("", text());
    bar.at("clicks", 50, 100);
    int drawn = text().length() - 1;
    ProgressBar.clear(bar);
    assertTrue(text().endsWith("\r" + " ".repeat(drawn) + "\r"), text());
  }

  @Test
  void silentWhereNobodyWatches() {
    assumeFalse(ProgressBar.isTerminal(System.console()), "tests run on a terminal");
    assertSame(Progress.SILENT, ProgressBar.onTerminal("side.wav"));
    ProgressBar.clear(Progress.SILENT);
  }

  /** As Console is from Java 22 on. */
  public record LaterConsole(boolean isTerminal) {}

  @Test
  void aConsoleThatSaysSoIsNoTerminal() {
    assertFalse(ProgressBar.isTerminal(null));
    assertFalse(ProgressBar.isTerminal(new LaterConsole(false)));
    assertTrue(ProgressBar.isTerminal(new LaterConsole(true)));
    assertTrue(ProgressBar.isTerminal("before Java 22 it could not be asked"));
  }
}
