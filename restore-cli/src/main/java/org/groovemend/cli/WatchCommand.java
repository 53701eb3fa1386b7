package org.groovemend.cli;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.time.Duration;
import java.util.HexFormat;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import org.groovemend.limits.LimitProfile;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.watch.WatchTimes;
import org.groovemend.watch.WatchedFolder;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "watch",
    mixinStandardHelpOptions = true,
    header = "Inspect each transfer in a folder as soon as the capture has finished it.",
    description = {
      "",
      "Looks at the folder every few seconds. A file is inspected when its size and time have"
          + " stood",
      "still and its header says as much as there is; then one line tells the verdict, fine, look"
          + " or",
      "redo, with the weightiest reason. Files are opened only then, and only for reading. Ctrl-C"
          + " ends it.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend watch captures",
      "  groovemend watch captures --limits shellac --out checked --page",
      "  groovemend watch captures --once                what is there, then end",
      "  groovemend watch captures --json | tee watch.jsonl",
      "",
      "Exit codes: with --once: 0 nobody is needed; 7 a person should look or a transfer should be"
          + " made",
      "again; 3 some files could not be judged or are not finished. 2 usage, no such folder; 130"
          + " ended by",
      "Ctrl-C."
    })
final class WatchCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "DIR", description = "The folder that the capture program writes into.")
  private Path folder;

  @Option(names = "--below", description = "Watch all folders in it as well.")
  private boolean below;

  @Option(
      names = "--once",
      description =
          "Inspect what is there, wait no longer than it takes to see it stand still, end.")
  private boolean once;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description =
          "Write the findings of each file there as JSON (the watched folder will do), and know at"
              + " the next start what is done.")
  private Path out;

  @Option(names = "--page", description = "Write a page with pictures and a PNG there too.")
  private boolean page;

  @Option(names = "--replace", description = "Write over files there that no watch has made.")
  private boolean replace;

  @Option(
      names = "--limits",
      paramLabel = "NAME|FILE",
      defaultValue = "general",
      description =
          "Limits to judge by: general, shellac, microgroove, lacquer, or a YAML file. Default:"
              + " ${DEFAULT-VALUE}.")
  private String limits;

  @Option(
      names = "--captured",
      paramLabel = "HOW",
      defaultValue = "unknown",
      description =
          "How the transfers are made: riaa or another curve of 'groovemend curve', flat, or"
              + " unknown (their clicks are asked). Default: ${DEFAULT-VALUE}.")
  private String captured;

  @Option(
      names = "--every",
      paramLabel = "S",
      defaultValue = "2",
      description = "Seconds between two looks. Default: ${DEFAULT-VALUE}.")
  private double every;

  @Option(
      names = "--settled",
      paramLabel = "S",
      defaultValue = "10",
      description =
          "Seconds for which size and time of a file must stand still; more for slow network"
              + " folders. Default: ${DEFAULT-VALUE}.")
  private double settled;

  @Option(
      names = "--patience",
      paramLabel = "S",
      defaultValue = "120",
      description =
          "Seconds after which a file that stands still is judged as it is, whatever its header"
              + " says. Default: ${DEFAULT-VALUE}.")
  private double patience;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    check("--every", every, 0.05);
    check("--settled", settled, 0);
    check("--patience", patience, settled);
    if (out == null && (page || replace)) {
      throw new UsageException(
          (page ? "--page" : "--replace") + " needs --out, the folder to write into");
    }
    CaptureCurve curve = Usage.check(() -> TreatmentOptions.captured(captured));
    LimitProfile profile = LimitsFile.of(limits);
    if (!Files.isDirectory(folder)) {
      throw new UsageException(
          folder
              + (Files.exists(folder) ? " is a file" : ": there is no such folder")
              + "; name the folder that the capture program writes into");
    }
    if (out != null) {
      OutPlace.requireFolder(out);
    }
    Map<String, String> asked = new TreeMap<>();
    asked.put("limits", profile.name() + " " + digest(profile));
    asked.put("captured", captured);
    asked.put("version", Version.number());
    WatchStore store = out == null ? null : new WatchStore(folder, out, page, replace, asked);
    WatchLines lines =
        new WatchLines(
            spec.commandLine().getOut(), common.json(), folder, Clock.systemDefaultZone());
    WatchTimes times = new WatchTimes(nanos(settled), nanos(once ? settled * 1e6 : patience));
    try (Hands hands = new Hands(common.threads())) {
      WatchRounds rounds =
          new WatchRounds(
              new WatchedFolder(folder, below, times), lines, store, hands, profile, curve, common);
      return rounds.run(once, nanos(every).toMillis());
    }
  }

  /** A house may change its limits without changing their name. */
  private static String digest(LimitProfile profile) throws NoSuchAlgorithmException {
    String text = new TreeMap<>(profile.limits()).toString();
    byte[] sha = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
    return HexFormat.of().formatHex(sha, 0, 8);
  }

  private static void check(String option, double seconds, double least) {
    if (!(seconds >= least && seconds <= 1e6)) {
      throw new UsageException(
          option + " " + seconds + " is not between " + least + " and 1000000 seconds");
    }
  }

  private static Duration nanos(double seconds) {
    return Duration.ofNanos((long) (seconds * 1e9));
  }
}
