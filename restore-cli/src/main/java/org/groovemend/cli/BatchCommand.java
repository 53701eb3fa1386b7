package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.groovemend.batch.Batch;
import org.groovemend.batch.BatchOutcome;
import org.groovemend.batch.BatchPlan;
import org.groovemend.batch.BatchSettings;
import org.groovemend.batch.BatchWatch;
import org.groovemend.batch.DiskRate;
import org.groovemend.batch.RootNames;
import org.groovemend.batch.SideFailure;
import org.groovemend.batch.SideOrder;
import org.groovemend.batch.SideRow;
import org.groovemend.batch.cluster.ClusterEngine;
import org.groovemend.batch.cluster.ClusterRun;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Treatment;
import org.groovemend.overview.OverviewFiles;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "batch",
    mixinStandardHelpOptions = true,
    header = "Clean a whole collection, unattended; can be stopped and resumed at any moment.",
    description = {
      "",
      "Finds the sides in folders, bags, patterns and manifests, does those that are not done yet,"
          + " and",
      "keeps a catalogue of all of them in the output folder. The transfers are only read. What",
      "fails is noted and the rest goes on; the same command again does what is left.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend batch transfers --out cleaned --dry-run     what would be done, how long",
      "  groovemend batch transfers --out cleaned",
      "  groovemend batch shelf.csv --out cleaned --rules rules.yaml",
      "  groovemend batch --example > rules.yaml                rules for series and discs",
      "  groovemend batch transfers --out cleaned --shard 3/8   one part of eight, elsewhere",
      "  groovemend catalogue cleaned state=failed",
      "",
      "Exit codes: 0 done; 2 usage; 3 some sides failed or could not be looked at; 1 stopped, such"
          + " as",
      "by a full disk; 4 nothing could be looked at; 130 interrupted."
    })
final class BatchCommand implements Callable<Integer> {

  private static final Pattern SHARD = Pattern.compile("(\\d{1,6})/(\\d{1,6})");
  private static final long MEBI = 1L << 20;
  private static final double MEGA = 1e6;

  /** Share of the Java machine's memory that sides may use together. */
  private static final double SHARE = 0.8;

  @Spec private CommandSpec spec;

  @Parameters(
      arity = "0..*",
      paramLabel = "COLLECTION",
      description =
          "Folders with all below them, patterns such as 'shelf/**/*.wav', single sides, or"
              + " manifests (CSV, JSON Lines).")
  private List<Path> sources;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "Folder for results and catalogue; made if missing.")
  private Path out;

  @Option(
      names = "--rules",
      paramLabel = "FILE",
      description = "Rules (YAML) that treat series and discs otherwise; see --example.")
  private Path rules;

  @Option(names = "--example", description = "Print commented rules to begin with.")
  private boolean example;

  @Option(
      names = "--dry-run",
      description = "Say what would be done, about how long and how large, and write nothing.")
  private boolean dryRun;

  @Option(
      names = "--memory",
      paramLabel = "MB",
      description =
          "Memory for all sides under work together. Default: 80 %% of what Java may use, see"
              + " GROOVEMEND_JAVA_OPTS.")
  private Long memory;

  @Option(
      names = "--disk-rate",
      paramLabel = "MB",
      description =
          "Read and write at most so many megabytes a second, all sides together (Linux).")
  private Double diskRate;

  @Option(
      names = "--clips",
      description =
          "Put clips to listen to into the pages, which are then up to 15 megabytes each.")
  private boolean clips;

  @Option(names = "--no-page", description = "Make no report pages.")
  private boolean noPage;

  @Option(names = "--again", description = "Do every side again, done or not.")
  private boolean again;

  @Option(
      names = "--any-version",
      description = "Let what another version of groovemend has done count as done.")
  private boolean anyVersion;

  @Option(
      names = "--replace",
      description = "Write over files in the output folder that no run into it has made.")
  private boolean replace;

  @Option(
      names = "--shard",
      paramLabel = "I/N",
      description =
          "Do part I of N only, with a catalogue of its own; for array jobs of schedulers. Parts"
              + " may run at once.")
  private String shard;

  @Option(
      names = "--now",
      paramLabel = "TIME",
      description =
          "Time to write into ledgers, such as 2026-03-01T00:00:00Z, so that two runs can be"
              + " compared byte for byte.")
  private String now;

  @Mixin private TreatmentOptions treatment;

  @Mixin private CommonOptions common;

  /** Has sides done on other machines; null for the threads of this one. */
  private final ClusterEngine engine;

  BatchCommand() {
    this(null);
  }

  BatchCommand(ClusterEngine engine) {
    this.engine = engine;
  }

  @Override
  public Integer call() throws Exception {
    PrintWriter text = spec.commandLine().getOut();
    if (example) {
      text.print(DeliverCommand.text("rules.yaml"));
      text.flush();
      return ExitCode.DONE;
    }
    if (sources == null || out == null) {
      throw new UsageException(
          sources == null
              ? "name a collection: folders, patterns or manifests"
              : "--out says where results go; give a folder");
    }
    requireDiskRate();
    refuseWhatTheEngineDecides();
    int[] part = part();
    Instant time = time();
    Treatment base = treatment.treatment();
    BatchRules read = rules == null ? BatchRules.NONE : BatchRules.read(rules);
    OutPlace.requireFolder(out);
    BatchPlan.Wish wish =
        new BatchPlan.Wish(out, page(), Version.number(), anyVersion, again, part[0], part[1]);
    if (dryRun) {
      Batch.Known known = Batch.look(out, part[0], part[1]);
      BatchOrders.Found found =
          BatchOrders.of(sources, read, base, new RootNames(known.roots()), out);
      int none = requireSome(found);
      if (none != ExitCode.DONE) {
        return none;
      }
      BatchPlan plan = BatchPlan.of(found.orders(), known.rows(), wish);
      if (common.json()) {
        Json.print(text, BatchView.asMap(plan, found, threads()));
      } else {
        BatchView.print(plan, found, threads(), text);
      }
      return ExitCode.DONE;
    }
    try (Batch batch = Batch.open(out, part[0], part[1], Clock.systemUTC())) {
      RootNames names = new RootNames(batch.catalogue().roots());
      BatchOrders.Found found = BatchOrders.of(sources, read, base, names, out);
      int none = requireSome(found);
      if (none != ExitCode.DONE) {
        return none;
      }
      Map<String, SideRow> rows = batch.catalogue().rows();
      BatchPlan plan = BatchPlan.of(found.orders(), rows, wish);
      return run(batch, names, found, rows, plan, time, part[1] == 1, text);
    }
  }

  private int run(
      Batch batch,
      RootNames names,
      BatchOrders.Found found,
      Map<String, SideRow> rows,
      BatchPlan plan,
      Instant time,
      boolean alone,
      PrintWriter text)
      throws IOException {
    BatchOutcome outcome;
    boolean interrupted;
    try (Hands hands = new Hands(common.threads())) {
      BatchBar bar =
          new BatchBar(
              common.onTerminal() ? System.err : null,
              System::nanoTime,
              plan,
              threads(),
              hands::stopping);
      BatchSettings settings =
          new BatchSettings(
              threads(),
              memoryBytes(),
              page(),
              Version.number(),
              replace,
              time,
              Clock.systemUTC(),
              this::explain,
              found.bags());
      try {
        BatchWatch watch = diskRate == null ? bar : DiskRate.of(MEGA * diskRate).slowing(bar);
        outcome =
            engine == null
                ? batch.run(plan, names.folders(), rows, settings, hands.crew(), watch, alone)
                : batch.run(
                    plan,
                    names.folders(),
                    rows,
                    settings,
                    alone,
                    run ->
                        ClusterRun.run(
                            batch.catalogue(),
                            plan,
                            out,
                            run,
                            settings,
                            bar,
                            batch::log,
                            engine,
                            TreatmentText::brief));
      } finally {
        bar.clear();
      }
      interrupted = hands.stopping();
    }
    String overview = alone && outcome.stopped() == null ? overview(batch) : null;
    if (common.json()) {
      Map<String, Object> map = BatchView.asMap(outcome, plan, found, out);
      if (outcome.stopped() != null) {
        map.put("error", stopped(outcome).asMap());
      }
      Json.print(text, map);
    } else {
      BatchView.print(outcome, plan, found, out, text);
      if (overview != null) {
        text.println("  overview               " + overview);
        text.flush();
      }
    }
    if (outcome.stopped() != null) {
      spec.commandLine().getErr().println("groovemend: " + outcome.stopped());
      return ExitCode.UNEXPECTED;
    }
    if (interrupted) {
      spec.commandLine()
          .getErr()
          .println("groovemend: interrupted; the same command again does what is left.");
      return ExitCode.INTERRUPTED;
    }
    return outcome.failed().isEmpty() && found.troubles().isEmpty()
        ? ExitCode.DONE
        : ExitCode.PARTLY_FAILED;
  }

  /** Sides are done whether or not their overview can be written. */
  private String overview(Batch batch) {
    try {
      OverviewCommand.writeAfter(batch.catalogue(), out, Clock.systemUTC().instant());
      return out.resolve(OverviewFiles.PAGE).toString();
    } catch (IOException e) {
      return "could not be written: " + e.getMessage();
    }
  }

  /** Threads that are known of: an engine's workers come and go. */
  private int threads() {
    return engine == null ? common.threads() : 1;
  }

  private void refuseWhatTheEngineDecides() {
    for (String option : List.of("--threads", "--memory", "--shard", "--disk-rate")) {
      if (engine != null && spec.commandLine().getParseResult().hasMatchedOption(option)) {
        throw new UsageException(
            option + " is for one machine; say processors and memory to the engine instead");
      }
    }
  }

  private static Failures.Failure stopped(BatchOutcome outcome) {
    return new Failures.Failure("io", outcome.stopped(), ExitCode.UNEXPECTED, false);
  }

  /** Why a side failed; where a fault of the program lies is for its log. */
  private SideFailure explain(Throwable trouble, SideOrder order) {
    Failures.Failure told = Failures.describe(trouble, List.of(order.found().file()), true);
    if (common.debug()) {
      trouble.printStackTrace(spec.commandLine().getErr());
    }
    return new SideFailure(told.kind(), told.sentence());
  }

  /** Tells troubles when there is nothing else. */
  private int requireSome(BatchOrders.Found found) {
    if (!found.orders().isEmpty()) {
      return ExitCode.DONE;
    }
    if (found.troubles().isEmpty()) {
      throw new UsageException(
          "no side was found: no file there is called .wav, .aiff, .flac or the like; name single"
              + " sides if theirs are other names");
    }
    found.troubles().forEach(t -> spec.commandLine().getErr().println("groovemend: " + t));
    if (common.json()) {
      Map<String, Object> error = new LinkedHashMap<>();
      error.put("kind", "inputRefused");
      error.put("message", String.join(" ", found.troubles()));
      error.put("exitCode", ExitCode.INPUT_REFUSED);
      Json.print(spec.commandLine().getOut(), Map.of("error", error));
    }
    return ExitCode.INPUT_REFUSED;
  }

  private ReportWish page() {
    if (clips && noPage) {
      throw new UsageException("--clips go into pages, --no-page makes none; give one of them");
    }
    return noPage ? ReportWish.NONE : clips ? ReportWish.WITH_CLIPS : ReportWish.WITHOUT_CLIPS;
  }

  private long memoryBytes() {
    if (memory == null) {
      return (long) (SHARE * Runtime.getRuntime().maxMemory());
    }
    if (memory < 1 || memory > Integer.MAX_VALUE) {
      throw new UsageException("--memory " + memory + " is not a number of megabytes above 0");
    }
    return memory * MEBI;
  }

  private void requireDiskRate() throws IOException {
    if (diskRate == null) {
      return;
    }
    if (!(diskRate >= 0.1 && diskRate <= 100_000)) {
      throw new UsageException("--disk-rate " + diskRate + " is not between 0.1 and 100000");
    }
    try {
      DiskRate.of(MEGA * diskRate);
    } catch (IOException e) {
      throw new UsageException(
          "--disk-rate needs a system that counts what a process reads and writes, as Linux does;"
              + " leave it out");
    }
  }

  private int[] part() {
    if (shard == null) {
      return new int[] {1, 1};
    }
    Matcher parts = SHARD.matcher(shard);
    if (parts.matches()) {
      int i = Integer.parseInt(parts.group(1));
      int n = Integer.parseInt(parts.group(2));
      if (i >= 1 && i <= n) {
        return new int[] {i, n};
      }
    }
    throw new UsageException("--shard \"" + shard + "\" is not I/N such as 3/8, from 1/8 to 8/8");
  }

  private Instant time() {
    try {
      return now == null ? null : Instant.parse(now);
    } catch (DateTimeException e) {
      throw new UsageException("--now \"" + now + "\" is not a time such as 2026-03-01T00:00:00Z");
    }
  }
}
