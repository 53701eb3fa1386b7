package org.groovemend.cli;

import java.nio.file.Path;
import org.groovemend.playback.CaptureCurve;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** A transfer that a command only reads, and how it was made. */
final class CapturedSide {

  @Parameters(
      paramLabel = "SIDE",
      description = "Transfer of a side: WAV, RF64, BW64, AIFF or FLAC.")
  private Path side;

  @Option(
      names = "--captured",
      paramLabel = "HOW",
      defaultValue = "unknown",
      description =
          "How the transfer was made: riaa or another curve of 'groovemend curve', flat, or unknown (its clicks are asked). Default: ${DEFAULT-VALUE}.")
  private String captured;

  Path file() {
    return side;
  }

  /**
   * How it was made.
   *
   * @throws UsageException if that is no such word
   */
  CaptureCurve curve() {
    return Usage.check(() -> TreatmentOptions.captured(captured));
  }
}
