package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.bag.BagFinding;
import org.groovemend.bag.BagReport;
import org.groovemend.chain.Progress;
import org.groovemend.job.handover.CheckBag;
import org.groovemend.job.handover.MakeBag;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "bag",
    mixinStandardHelpOptions = true,
    header = "Say whether a BagIt bag is complete and unchanged; or make one of a folder.",
    description = {
      "",
      "Complete: every file that is listed is there, and every payload file is listed. Valid:",
      "complete, and every checksum holds. The bag is only read; nothing is fetched.",
      "With --make, a bag is made of a copy of everything in FOLDER, such as what 'batch' wrote.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend bag received/side",
      "  groovemend bag received/side --quick     is everything there? No checksums are read",
      "  groovemend bag cleaned --make handed/cleaned   a bag of a whole collection",
      "",
      "Exit codes: 0 valid (with --quick: complete); 5 it is not; 4 no such folder; 2 usage;",
      "6 the bag that is to be made exists already."
    })
final class BagCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FOLDER", description = "The folder that holds bagit.txt.")
  private Path folder;

  @Option(names = "--quick", description = "Look only whether everything is there.")
  private boolean quick;

  @Option(
      names = "--make",
      paramLabel = "BAG",
      description = "Make this bag, a folder that is to appear, of all files in FOLDER.")
  private Path make;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @Option(names = "--quiet", description = "No progress bar.")
  private boolean quiet;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

  @Override
  public Integer call() throws Exception {
    Progress bar = quiet || json ? Progress.SILENT : ProgressBar.onTerminal(folder.toString());
    BagReport report;
    try {
      if (make != null) {
        make(bar);
        return ExitCode.DONE;
      }
      report = CheckBag.run(folder, !quick, bar);
    } finally {
      ProgressBar.clear(bar);
    }
    boolean holds = quick ? report.complete() : report.valid();
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("bag", 1);
      result.put("folder", folder.toString());
      result.put("complete", report.complete());
      result.put("valid", quick ? null : report.valid());
      result.put("payloadFiles", report.payloadFiles());
      result.put("payloadBytes", report.payloadBytes());
      result.put("findings", report.findings());
      Json.print(out, result);
    } else {
      print(report, out);
    }
    return holds ? ExitCode.DONE : ExitCode.VERIFICATION_FAILED;
  }

  private void make(Progress bar) throws IOException {
    if (quick) {
      throw new UsageException("--quick is for a bag that is there; leave it out with --make");
    }
    OutPlace.requireFolder(make, "--make");
    int files = MakeBag.run(folder, make, LocalDate.now(ZoneOffset.UTC), bar);
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("bag", 1);
      result.put("made", make.toString());
      result.put("payloadFiles", files);
      Json.print(out, result);
    } else {
      ProgressBar.clear(bar);
      out.println("bag  " + make + "  (" + files + " files)");
      out.flush();
    }
  }

  private void print(BagReport report, PrintWriter out) {
    for (BagFinding finding : report.findings()) {
      out.printf(
          Locale.ROOT,
          "%-12s %s%n",
          finding.kind().name().toLowerCase(Locale.ROOT).replace('_', ' '),
          finding.what());
    }
    String size =
        String.format(
            Locale.ROOT, "%d files, %d bytes", report.payloadFiles(), report.payloadBytes());
    if (!report.complete()) {
      out.println("The bag is NOT COMPLETE (" + size + ").");
    } else if (quick) {
      out.println("The bag is complete (" + size + "); checksums were not looked at.");
    } else if (report.valid()) {
      out.println("The bag is valid: complete, and every checksum holds (" + size + ").");
    } else {
      out.println("The bag is complete, but NOT VALID (" + size + ").");
    }
    out.flush();
  }
}
