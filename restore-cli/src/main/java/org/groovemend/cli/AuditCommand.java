package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.audit.AuditOutcome;
import org.groovemend.audit.Difference;
import org.groovemend.audit.Finding;
import org.groovemend.chain.Progress;
import org.groovemend.job.audit.Audit;
import org.groovemend.ledger.FileFacts;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "audit",
    mixinStandardHelpOptions = true,
    header = "Say what became of an original in something made from it.",
    description = {
      "",
      "With the ledger of the copy, named or found beside it, every word that differs is explained",
      "by an edit or a stage, or reported as unexplained. Without one it is measured: place, speed,",
      "rate, channels, polarity, gain, depth, filter, noise reduction, cuts; then where the two still",
      "differ. 'Identical' is said only if digests say so. Both files are only read.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend audit side.wav cleaned/side.restored.wav",
      "  groovemend audit side.wav reissue.flac --page audit.html",
      "  groovemend audit side.wav cleaned/side.restored.wav --without-ledger --json",
      "",
      "Exit codes: 0 done: all explained, identical, or measured without a ledger; 5 the ledger does",
      "not explain everything, is damaged or of other files; 4 input refused, or nothing in common;",
      "2 usage; 6 the page exists."
    })
final class AuditCommand implements Callable<Integer> {
  private static final int SHOWN = 20;

  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ORIGINAL", description = "The recording it was made from.")
  private Path original;

  @Parameters(index = "1", paramLabel = "DERIVATIVE", description = "What was made of it.")
  private Path derivative;

  @Option(
      names = "--ledger",
      paramLabel = "LEDGER",
      description = "Ledger of the derivative. Default: beside it, if there is one that fits.")
  private Path ledger;

  @Option(
      names = "--removed",
      paramLabel = "FILE",
      description = "What was taken away. Default: beside the ledger.")
  private Path removed;

  @Mixin private ParentOptions parents;

  @Option(names = "--without-ledger", description = "Measure, even if there is a ledger.")
  private boolean measure;

  @Option(names = "--page", paramLabel = "FILE.html", description = "A page to write as well.")
  private Path page;

  @Option(names = "--replace", description = "Write over the page if it exists.")
  private boolean replace;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    if (measure && (ledger != null || removed != null)) {
      throw new UsageException("--without-ledger contradicts --ledger and --removed");
    }
    if (page != null) {
      OutPlace.requireFile(page, "--page");
    }
    Usage.fileName(original);
    Usage.fileName(derivative);
    Audit.Result result;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(Usage.fileName(derivative));
      try {
        result =
            Audit.run(
                new Audit.Request(
                    original,
                    derivative,
                    ledger == null ? null : LedgerOptions.requireLedger(ledger),
                    removed,
                    parents.places(),
                    measure,
                    page,
                    replace,
                    Version.number(),
                    DateTimeFormatter.ISO_INSTANT.format(
                        ZonedDateTime.now(ZoneOffset.UTC).truncatedTo(ChronoUnit.SECONDS))),
                hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    }
    PrintWriter out = spec.commandLine().getOut();
    if (common.json()) {
      Json.print(out, asMap(result));
    } else {
      print(result, out);
    }
    return result.outcome().verdict() == AuditOutcome.Verdict.UNEXPLAINED
        ? ExitCode.VERIFICATION_FAILED
        : ExitCode.DONE;
  }

  private static Map<String, Object> asMap(Audit.Result result) {
    AuditOutcome o = result.outcome();
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("audit", 1);
    map.put("verdict", o.verdict());
    map.put("summary", o.summary());
    map.put("original", result.original());
    map.put("derivative", result.derivative());
    map.put("ledger", result.ledger());
    map.put("notices", result.notices());
    map.put("words", o.words());
    map.put("findings", o.findings());
    map.put("restDbfs", o.restDbfs());
    map.put("differenceCount", o.differenceCount());
    map.put("differenceSamples", o.differenceSamples());
    map.put("byKind", o.byKind());
    map.put("differences", o.differences());
    map.put("transfer", o.transfer());
    map.put("softLoud", o.softLoud());
    return map;
  }

  private void print(Audit.Result result, PrintWriter out) {
    AuditOutcome o = result.outcome();
    file(out, "original", result.original());
    file(out, "derivative", result.derivative());
    line(out, "ledger", result.ledger() == null ? "none" : result.ledger());
    result.notices().forEach(notice -> line(out, "note", notice));
    out.println(o.summary());
    for (Finding f : o.findings()) {
      out.printf(
          Locale.ROOT,
          "  %-16s %s (%.0f %% sure)%n",
          f.kind().name().toLowerCase(Locale.ROOT).replace('_', ' '),
          f.words(),
          100 * f.confidence());
    }
    if (!o.restDbfs().isEmpty()) {
      StringBuilder rest = new StringBuilder();
      for (double db : o.restDbfs()) {
        rest.append(rest.length() == 0 ? "" : ", ").append(level(db)).append(" dBFS");
      }
      line(out, "left over", "between the places below: " + rest);
    }
    if (!o.differences().isEmpty()) {
      out.printf(
          "  %10s  %10s  %8s  %-7s  %7s  %7s  %-12s %s%n",
          "seconds", "frame", "frames", "channel", "peak dB", "rms dB", "kind", "explanation");
      int shown = 0;
      for (Difference d : o.differences()) {
        if (shown++ == SHOWN) {
          out.printf(
              "  ... %d more; --json lists up to 10,000, --page 200%n",
              o.differenceCount() - SHOWN);
          break;
        }
        out.printf(
            Locale.ROOT,
            "  %10.4f  %10d  %8d  %-7s  %7s  %7s  %-12s %s%n",
            result.derivative().format().seconds(d.from()),
            d.from(),
            d.to() - d.from(),
            result.derivative().format().channelName(d.channel()),
            level(d.peakDbfs()),
            level(d.rmsDbfs()),
            d.kind().words(),
            d.explanation());
      }
    }
    if (page != null) {
      line(out, "page", page.toString());
    }
    out.flush();
  }

  private static String level(double db) {
    return Double.isFinite(db) ? String.format(Locale.ROOT, "%.1f", db) : "none";
  }

  private static void file(PrintWriter out, String role, FileFacts file) {
    line(out, role, file.name() + ", SHA-256 " + file.sha256());
    line(out, "", "samples " + file.samplesSha256());
  }

  private static void line(PrintWriter out, String name, String text) {
    out.println(String.format(Locale.ROOT, "  %-16s %s", name, text));
  }
}
