package org.groovemend.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.bands.BandListException;
import org.groovemend.bands.Clock;
import org.groovemend.job.side.TimeRange;
import org.groovemend.job.undo.EditChoice;
import picocli.CommandLine.Option;

/** Options that say which edits are meant. */
final class EditsWanted {

  @Option(
      names = "--edit",
      paramLabel = "N|N-M",
      split = ",",
      description = "Edits by their number in the ledger ('groovemend edits LEDGER --csv').")
  private List<String> edits = List.of();

  @Option(
      names = "--range",
      paramLabel = "FROM-TO",
      split = ",",
      description =
          "Edits that reach into a stretch of the side, in seconds or minutes:seconds, e.g. 1:02.5-1:03.")
  private List<String> ranges = List.of();

  @Option(
      names = "--stage",
      paramLabel = "STAGE",
      split = ",",
      description = "Edits of a stage: clicks, crackle or thumps.")
  private List<String> stages = List.of();

  @Option(
      names = "--channel",
      paramLabel = "left|right",
      split = ",",
      description = "Edits of a channel.")
  private List<String> channels = List.of();

  @Option(
      names = "--below",
      paramLabel = "MARGIN",
      description =
          "Edits with little evidence: their statistic stands less than this above its threshold, in the unit of the"
              + " stage.")
  private Double below;

  @Option(
      names = "--why",
      paramLabel = "TEXT",
      description = "The reason, kept with the decisions.")
  private String why = "";

  @Option(
      names = "--by",
      paramLabel = "NAME",
      description = "Who decides, kept with the decisions.")
  private String by = "";

  /** True if anything is said. */
  boolean any() {
    return !choice().isEmpty() || !why.isEmpty() || !by.isEmpty();
  }

  EditChoice choice() {
    return Usage.check(
        () ->
            new EditChoice(
                edits.stream().map(EditsWanted::numbers).toList(),
                stages.stream().map(stage -> stage.strip().toLowerCase(Locale.ROOT)).toList(),
                channels.stream().map(EditsWanted::channel).toList(),
                ranges.stream().map(EditsWanted::range).toList(),
                finite(below),
                why,
                by));
  }

  private static Double finite(Double margin) {
    if (margin != null && !Double.isFinite(margin)) {
      throw new UsageException("--below " + margin + " is no number");
    }
    return margin;
  }

  private static EditChoice.Numbers numbers(String text) {
    String[] parts = text.strip().split("\\s*-\\s*", -1);
    List<Long> numbers = new ArrayList<>();
    for (String part : parts) {
      try {
        numbers.add(Long.parseLong(part));
      } catch (NumberFormatException e) {
        throw new UsageException(
            "--edit " + text + " is no number of an edit, such as 17, nor two such as 17-20");
      }
    }
    if (numbers.size() > 2) {
      throw new UsageException("--edit " + text + " is not one number, nor two such as 17-20");
    }
    return new EditChoice.Numbers(numbers.get(0), numbers.get(numbers.size() - 1));
  }

  private static int channel(String text) {
    return switch (text.strip().toLowerCase(Locale.ROOT)) {
      case "left", "mono", "0" -> 0;
      case "right", "1" -> 1;
      default -> throw new UsageException("--channel " + text + " is neither left nor right");
    };
  }

  private static TimeRange range(String text) {
    String[] parts = text.strip().split("\\s*-\\s*", -1);
    if (parts.length != 2) {
      throw new UsageException(
          "--range " + text + " is not two times such as 62.5-63 or 1:02.5-1:03");
    }
    return new TimeRange(seconds(parts[0], text), seconds(parts[1], text));
  }

  private static double seconds(String part, String text) {
    try {
      return Clock.seconds(part);
    } catch (BandListException e) {
      throw new UsageException(
          "--range " + text + " is not two times such as 62.5-63 or 1:02.5-1:03");
    }
  }
}
