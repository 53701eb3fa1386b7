package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.audio.AudioFormat;
import org.groovemend.job.handover.EditTable;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.Ledger;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "edits",
    mixinStandardHelpOptions = true,
    header = "List every repaired place of a ledger.",
    description = {
      "",
      "Positions are sample frames from 0, the end exclusive; channels count from 0. Stages that",
      "may touch any sample have no places; what they took is in NAME.removed.flac. Places too long",
      "to be filled follow at the end (not with --csv).",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend edits side.ledger.jsonl            a table to read",
      "  groovemend edits side.ledger.jsonl --csv > edits.csv",
      "  groovemend edits side.ledger.jsonl --json"
    })
final class EditsCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "LEDGER", description = "Ledger file, NAME.ledger.jsonl.")
  private Path ledgerFile;

  @ArgGroup private Form form;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

  private static final class Form {
    @Option(names = "--csv", description = "Comma-separated values with a header line.")
    private boolean csv;

    @Option(names = "--json", description = "One JSON object for machines.")
    private boolean json;
  }

  @Override
  public Integer call() throws IOException {
    Ledger ledger = Ledger.open(LedgerOptions.requireLedger(ledgerFile));
    PrintWriter out = spec.commandLine().getOut();
    if (form != null && form.csv) {
      EditTable.write(ledger, null, out);
    } else if (form != null && form.json) {
      json(ledger, out);
    } else {
      table(ledger, out);
    }
    out.flush();
    return ExitCode.DONE;
  }

  private static void json(Ledger ledger, PrintWriter out) throws IOException {
    // written piece by piece: a side may have a million of them
    out.println("{\n  \"edits\" : 1,");
    out.println("  \"sampleRateHz\" : " + ledger.header().original().format().sampleRateHz() + ",");
    out.print("  \"list\" : [");
    boolean[] first = {true};
    ledger.forEachEdit(
        edit -> {
          out.print(first[0] ? "\n" : ",\n");
          first[0] = false;
          out.print(
              "    {\"start\":"
                  + edit.start()
                  + ",\"end\":"
                  + edit.end()
                  + ",\"channel\":"
                  + edit.channel()
                  + ",\"stage\":\""
                  + edit.stage()
                  + "\",\"statistic\":"
                  + orNull(edit.statistic())
                  + ",\"threshold\":"
                  + orNull(edit.threshold())
                  + ",\"method\":\""
                  + edit.method()
                  + "\",\"modelOrder\":"
                  + edit.modelOrder()
                  + ",\"gapStart\":"
                  + edit.gapStart()
                  + ",\"gapEnd\":"
                  + (edit.gapStart() + edit.gapFrames())
                  + ",\"uncertaintyDbfs\":"
                  + orNull(edit.uncertaintyDbfs())
                  + ",\"number\":"
                  + edit.number()
                  + "}");
        });
    out.print("\n  ],\n  \"leftAlone\" : [");
    String separator = "\n";
    for (Map<?, ?> place : leftAlone(ledger)) {
      out.print(
          separator
              + "    {\"start\":"
              + number(place, "start")
              + ",\"end\":"
              + number(place, "end")
              + ",\"channel\":"
              + number(place, "channel")
              + ",\"stage\":\""
              + place.get("stage")
              + "\"}");
      separator = ",\n";
    }
    out.println("\n  ]\n}");
  }

  /** Places that the ledger names as too long to be filled. */
  private static List<Map<?, ?>> leftAlone(Ledger ledger) {
    List<Map<?, ?>> places = new ArrayList<>();
    for (AnalysisRecord analysis : ledger.analyses()) {
      if (analysis.name().equals("leftAlone")
          && analysis.result().get("list") instanceof List<?> list) {
        for (Object place : list) {
          if (place instanceof Map<?, ?> map) {
            places.add(map);
          }
        }
      }
    }
    return places;
  }

  private static long number(Map<?, ?> place, String field) {
    return place.get(field) instanceof Number number ? number.longValue() : 0;
  }

  private static void table(Ledger ledger, PrintWriter out) throws IOException {
    AudioFormat format = ledger.header().original().format();
    out.printf(
        Locale.ROOT,
        "%7s  %12s  %-5s  %-7s  %9s  %9s  %9s  %s%n",
        "edit",
        "time",
        "wall",
        "stage",
        "length",
        "statistic",
        "threshold",
        "method");
    long[] count = {0};
    ledger.forEachEdit(
        edit -> {
          count[0]++;
          out.printf(
              Locale.ROOT,
              "%7d  %12s  %-5s  %-7s  %6.2f ms  %9.2f  %9.2f  %s%n",
              edit.number(),
              time(format.seconds(edit.start())),
              AudioFormat.channelName(edit.channel(), format.channels()),
              edit.stage(),
              edit.frames() * 1000.0 / format.sampleRateHz(),
              edit.statistic(),
              edit.threshold(),
              edit.method());
        });
    out.printf(Locale.ROOT, "%,d edit%s.%n", count[0], count[0] == 1 ? "" : "s");
    List<Map<?, ?>> left = leftAlone(ledger);
    if (!left.isEmpty()) {
      out.println();
      out.println("Left alone because too long to be filled; listen there:");
    }
    for (Map<?, ?> place : left) {
      out.printf(
          Locale.ROOT,
          "%7s  %12s  %-5s  %-7s  %6.2f ms%n",
          "",
          time(format.seconds(number(place, "start"))),
          AudioFormat.channelName((int) number(place, "channel"), format.channels()),
          place.get("stage"),
          (number(place, "end") - number(place, "start")) * 1000.0 / format.sampleRateHz());
    }
  }

  static String time(double seconds) {
    long millis = Math.round(seconds * 1000);
    return String.format(
        Locale.ROOT,
        "%d:%02d:%02d.%03d",
        millis / 3_600_000,
        millis / 60_000 % 60,
        millis / 1000 % 60,
        millis % 1000);
  }

  private static String orNull(double value) {
    return Double.isFinite(value) ? Double.toString(value) : "null";
  }
}
