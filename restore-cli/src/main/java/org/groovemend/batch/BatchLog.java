package org.groovemend.batch;

import java.io.Closeable;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.temporal.ChronoUnit;

/**
 * One line for everything that happens in a run, added to a file. A convenience: what counts is in
 * the catalogue, so trouble with the log stops nothing.
 */
final class BatchLog implements Closeable {

  static final String NAME = "batch.log";

  private final Clock clock;
  private Writer writer;

  private BatchLog(Clock clock, Writer writer) {
    this.clock = clock;
    this.writer = writer;
  }

  static BatchLog open(Path file, Clock clock) {
    Writer writer = null;
    try {
      writer =
          Files.newBufferedWriter(
              file, StandardCharsets.UTF_8, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
    } catch (IOException e) {
      // without a log then
    }
    return new BatchLog(clock, writer);
  }

  synchronized void line(String text) {
    if (writer == null) {
      return;
    }
    try {
      writer.write(
          clock.instant().truncatedTo(ChronoUnit.SECONDS)
              + " "
              + text.replaceAll("\\R", " ")
              + "\n");
      writer.flush();
    } catch (IOException e) {
      writer = null;
    }
  }

  @Override
  public synchronized void close() {
    if (writer != null) {
      try {
        writer.close();
      } catch (IOException e) {
        // nothing more to say
      }
      writer = null;
    }
  }
}
