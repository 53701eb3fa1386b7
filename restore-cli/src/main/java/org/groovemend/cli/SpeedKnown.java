package org.groovemend.cli;

import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.groovemend.speed.GrooveRadii;
import org.groovemend.speed.HumSource;
import org.groovemend.speed.SpeedQuestion;
import org.groovemend.speed.StatedRpm;
import picocli.CommandLine.Option;

/** What a person knows about the speed of a side. */
final class SpeedKnown {
  private static final Pattern RADII =
      Pattern.compile("(\\d{1,3}(?:\\.\\d+)?)-(\\d{1,3}(?:\\.\\d+)?)");

  @Option(
      names = "--played",
      paramLabel = "RPM",
      description = "Speed of the turntable, such as 33.333, \"33 1/3\", 45 or 78.26.")
  private String played;

  @Option(
      names = "--meant",
      paramLabel = "RPM",
      description =
          "Speed that the disc was made for; 78.26 and 77.92 are taken as strobes show them.")
  private String meant;

  @Option(
      names = "--pitch",
      paramLabel = "HZ",
      defaultValue = "440",
      description = "Pitch of A that the players tuned to. Default: ${DEFAULT-VALUE}.")
  private double pitch;

  @Option(
      names = "--radii",
      paramLabel = "OUTER-INNER",
      description =
          "Radius of the groove at start and end of the side, mm, such as 146-60. Default: those of the commonest disc, as far as the wow does not say otherwise.")
  private String radii;

  @Option(
      names = "--hum-of",
      paramLabel = "WHAT",
      defaultValue = "unknown",
      description =
          "Where hum comes from: disc (recorded with the music: it tells the speed), replay (it tells nothing), or unknown (hum is not asked). Default: ${DEFAULT-VALUE}.")
  private HumSource hum;

  @Option(
      names = "--ledger",
      paramLabel = "FILE",
      description = "Ledger of the side: its repairs tell the speed of the turntable.")
  private Path ledger;

  Path ledger() {
    return ledger;
  }

  SpeedQuestion question() {
    return Usage.check(
        () ->
            new SpeedQuestion(
                pitch,
                played == null ? Double.NaN : StatedRpm.parse(played).turnsPerMinute(),
                meant == null ? Double.NaN : StatedRpm.parse(meant).turnsPerMinute(),
                parsedRadii(),
                hum,
                null));
  }

  private GrooveRadii parsedRadii() {
    if (radii == null) {
      return null;
    }
    Matcher matcher = RADII.matcher(radii.strip());
    if (!matcher.matches()) {
      throw new UsageException(
          "--radii \"" + radii + "\" is not OUTER-INNER in mm; give such as 146-60");
    }
    return new GrooveRadii(
        Double.parseDouble(matcher.group(1)), Double.parseDouble(matcher.group(2)));
  }

  /** Factor by stated speeds, NaN if not both are. */
  double statedFactor() {
    SpeedQuestion question = question();
    return question.meantRpm() / question.playedRpm();
  }

  String statedWords() {
    return "played at " + played.strip() + " rpm, made for " + meant.strip() + ", as stated";
  }
}
