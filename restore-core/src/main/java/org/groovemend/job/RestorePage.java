package org.groovemend.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.groovemend.audio.SideReader;
import org.groovemend.leadin.LeadInFinding;

/** Puts the page of a restored side together. */
final class RestorePage {

  private RestorePage() {}

  static void write(
      Path file,
      RestoreRequest request,
      Survey survey,
      LeadInFinding leadIn,
      Plan plan,
      SideAccount account,
      Bookkeeping.Sums sums,
      RestoreOutcome outcome,
      SideReader original,
      SideReader restored)
      throws IOException {
    Files.writeString(file, "<!doctype html><title>x</title>");
  }
}
