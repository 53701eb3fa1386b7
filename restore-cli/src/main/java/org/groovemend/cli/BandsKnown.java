package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import org.groovemend.bands.BandList;
import org.groovemend.bands.BandWish;
import org.groovemend.job.bands.BandListFile;
import picocli.CommandLine.Option;

/** What a person knows of the bands of a side. */
final class BandsKnown {

  @Option(
      names = "--list",
      paramLabel = "FILE",
      description = "Times and titles, or titles alone: plain lines, .csv or .json.")
  private Path list;

  @Option(
      names = "--count",
      paramLabel = "N",
      description = "How many bands there are: the likeliest places are taken, doubts told.")
  private Integer count;

  @Option(
      names = "--within",
      paramLabel = "S",
      defaultValue = "5",
      description = "How far, in seconds, a gap may be from a time of the list. Default: 5.")
  private double within;

  @Option(
      names = "--exact",
      description = "Cut at the times of the list to the frame, wherever gaps are.")
  private boolean exact;

  @Option(
      names = "--pre-roll",
      paramLabel = "S",
      defaultValue = "0.25",
      description = "Seconds of groove before the first sound of a band. Default: 0.25.")
  private double preRoll;

  @Option(
      names = "--keep-ends",
      description = "Leave run-in and run-out with the first and the last band.")
  private boolean keepEnds;

  Path list() {
    return list;
  }

  BandWish wish() throws IOException {
    if (count != null && count < 1) {
      throw new UsageException("--count " + count + " is below 1");
    }
    BandList read = list == null ? null : BandListFile.read(list);
    return Usage.check(
        () -> new BandWish(read, count == null ? 0 : count, exact, within, preRoll, !keepEnds));
  }
}
