package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.speed.DriftNode;
import org.groovemend.speed.SpeedEvidence;
import org.groovemend.speed.SpeedFinding;
import org.groovemend.speed.TimeMap;
import org.groovemend.speed.Wow;
import picocli.CommandLine.Option;

/** What a person wants done to the time of a side. */
final class SpeedWanted {
  private static final String FOUND = "found";

  @Option(
      names = "--out",
      paramLabel = "COPY",
      description = "The copy to write, .wav or .flac; COPY.speed.json tells what was done.")
  private Path out;

  @Option(
      names = "--factor",
      paramLabel = "X",
      description =
          "Run that many times as fast, 0.25 to 4; or \"found\": what all evidence says together. Default: --meant over --played if both are stated, or else 1.")
  private String factor;

  @Option(
      names = "--drift",
      paramLabel = "S:X,...",
      description =
          "Factors at moments of the side in seconds, over and above --factor; a smooth curve in between.")
  private String drift;

  @Option(
      names = "--take-out-wow",
      description = "Take out what sways once a turn, if it is certain.")
  private boolean wow;

  @Option(
      names = "--rate",
      paramLabel = "HZ",
      description = "Sampling rate of the copy. Default: that of the side.")
  private Integer rate;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Of the dither. Default: ${DEFAULT-VALUE}.")
  private long seed;

  Path out() {
    return out;
  }

  int rateHz() {
    return rate == null ? 0 : rate;
  }

  long seed() {
    return seed;
  }

  private boolean found() {
    return FOUND.equals(factor);
  }

  /** True if the copy hangs on what is heard. */
  boolean mustListen() {
    return found() || wow;
  }

  /** Says what cannot be before any work begins. */
  void check(SpeedKnown known, Path side, Path png) throws IOException {
    if (png != null) {
      OutPlace.requireFile(png, "--png");
    }
    if (out == null) {
      if (factor != null || drift != null || wow || rate != null) {
        throw new UsageException(
            "--factor, --drift, --take-out-wow and --rate are for a copy; name it with --out.");
      }
      return;
    }
    OutPlace.requireFile(out);
    if (rate != null && rate <= 0) {
      throw new UsageException("--rate " + rate + " is no sampling rate; give such as 48000");
    }
    map(known, null);
  }

  /**
   * What is to be done; without {@code heard}, as far as it is stated.
   *
   * @throws UsageException if it cannot be
   */
  TimeMap map(SpeedKnown known, SpeedFinding heard) {
    double times = 1;
    if (found()) {
      times = heard == null ? 1 : found(heard).factor();
    } else if (factor != null) {
      times = number(factor, "--factor");
    } else if (!Double.isNaN(known.statedFactor())) {
      times = known.statedFactor();
    }
    double exact = times;
    Wow taken = wow && heard != null && heard.wow().found() ? heard.wow().wow() : null;
    return Usage.check(() -> new TimeMap(exact, nodes(), taken));
  }

  private static SpeedEvidence found(SpeedFinding heard) {
    SpeedEvidence together = heard.estimate().together();
    if (together == null) {
      throw new UsageException(
          "no factor was found that all evidence agrees on ("
              + (heard.estimate().doubts().isEmpty()
                  ? heard.tuning().reason()
                  : String.join("; ", heard.estimate().doubts()))
              + "); no copy was written. State one with --factor");
    }
    return together;
  }

  String basis(SpeedKnown known, SpeedFinding heard) {
    List<String> words = new ArrayList<>();
    if (found()) {
      SpeedEvidence one = found(heard);
      words.add(
          String.format(
              Locale.ROOT,
              "factor found, %.6f to %.6f with 95 %% confidence: %s",
              one.low(),
              one.high(),
              one.words()));
    } else if (factor != null) {
      words.add("factor as stated");
    } else if (!Double.isNaN(known.statedFactor())) {
      words.add(known.statedWords());
    }
    if (drift != null) {
      words.add("drift as stated");
    }
    if (wow) {
      words.add(heard.wow().reason() + (heard.wow().found() ? "" : "; none was taken out"));
    }
    return words.isEmpty() ? "another rate only" : String.join("; ", words);
  }

  private List<DriftNode> nodes() {
    List<DriftNode> nodes = new ArrayList<>();
    if (drift == null) {
      return nodes;
    }
    for (String one : drift.split(",", -1)) {
      String[] parts = one.split(":", -1);
      if (parts.length != 2) {
        throw new UsageException(
            "--drift \""
                + drift
                + "\" is not a list of SECONDS:FACTOR; give such as 0:1.006,90:1.002,180:1");
      }
      nodes.add(new DriftNode(number(parts[0], "--drift"), number(parts[1], "--drift")));
    }
    return nodes;
  }

  private static double number(String text, String option) {
    try {
      return Double.parseDouble(text.strip());
    } catch (NumberFormatException e) {
      throw new UsageException(
          option
              + " \""
              + text
              + "\" is no number"
              + (option.equals("--factor") ? ", nor \"found\"; give such as 1.0043" : ""));
    }
  }
}
