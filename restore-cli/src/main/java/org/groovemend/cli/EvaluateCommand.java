package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.delivery.OutputSet;
import org.groovemend.evaluate.Bench;
import org.groovemend.evaluate.EvaluationCharts;
import org.groovemend.evaluate.Request;
import org.groovemend.evaluate.Scenario;
import org.groovemend.evaluate.Sound;
import org.groovemend.evaluate.Summary;
import org.groovemend.evaluate.Trial;
import org.groovemend.job.restore.Treatment;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "evaluate",
    mixinStandardHelpOptions = true,
    header = "How well would it work on your kind of music? Damages copies, restores, compares.",
    description = {
      "",
      "Give undamaged music like that on your discs; without any, an invented band plays. The middle",
      "of each file is damaged as a groove is, restored, and compared with the sound as it was. The",
      "files are only read. Writes a table, the figures and two pictures.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend evaluate",
      "  groovemend evaluate quartet.wav band.flac --seeds 3 --out trial",
      "  groovemend evaluate --restraint --scenario clean",
      "  groovemend evaluate speech.wav --scenario clean,clicks --treatment mine.yaml",
      "",
      "Damage is modelled: figures compare settings and kinds of music, they promise nothing for a disc."
    })
final class EvaluateCommand implements Callable<Integer> {

  static final String TABLE = "evaluation.md";
  static final String FIGURES = "evaluation.json";
  static final String RECALL = "evaluation.precision-recall.png";
  static final String ALARMS = "evaluation.false-alarms.png";

  @Spec private CommandSpec spec;

  @Parameters(
      arity = "0..*",
      paramLabel = "SOUND",
      description = "Undamaged music or speech: WAV, AIFF or FLAC. Default: an invented band.")
  private List<Path> sounds = List.of();

  @Option(
      names = "--scenario",
      paramLabel = "NAMES",
      split = ",",
      description =
          "What is done to the copies, comma-separated: clean, clicks, crackle, thumps, noise, worn, hum."
              + " Default: all but thumps.")
  private List<String> scenarios;

  @Option(
      names = "--restraint",
      description =
          "Also tries six invented pieces that look like damage (applause, castanets, muted brass and so"
              + " on), undamaged, at 48 and 96 kHz.")
  private boolean restraint;

  @Option(
      names = "--seeds",
      paramLabel = "N",
      description = "Different copies of each, 1 to 20. Default: 1.")
  private int seeds = 1;

  @Option(
      names = "--seconds",
      paramLabel = "S",
      description = "Length of the extract of each file, 2 to 60. Default: 10.")
  private double seconds = 10;

  @Option(
      names = "--treatment",
      paramLabel = "FILE",
      description = "Treatment file (YAML) to try; its capture curve is not used.")
  private Path treatment;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "Folder for the results. Default: groovemend-evaluation here.")
  private Path out = Path.of("groovemend-evaluation");

  @Option(names = "--replace", description = "Overwrite results of an earlier evaluation.")
  private boolean replace;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    if (seeds < 1 || seeds > 20) {
      throw new UsageException("--seeds " + seeds + " is not between 1 and 20");
    }
    if (!(seconds >= 2 && seconds <= 60)) {
      throw new UsageException("--seconds " + seconds + " is not between 2 and 60");
    }
    List<Scenario> chosen = Usage.check(this::chosen);
    Treatment tried = treatment == null ? Treatment.defaults() : TreatmentFile.read(treatment);
    OutPlace.requireFolder(out);
    List<String> names = List.of(TABLE, FIGURES, RECALL, ALARMS);
    for (String name : names) {
      if (!replace && Files.exists(out.resolve(name), LinkOption.NOFOLLOW_LINKS)) {
        throw new OutputExistsException(out.resolve(name));
      }
    }
    List<Sound> untouchable = restraint ? Sound.restraint(Math.min(8, seconds)) : List.of();
    Request request = new Request(sounds(), chosen, untouchable, seeds, tried, Version.number());
    boolean made = Files.notExists(out);
    Files.createDirectories(out);
    List<Trial> trials;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress("evaluate");
      try {
        trials = Bench.run(request, out, hands.crew(), hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    } catch (IOException | RuntimeException e) {
      if (made) {
        Files.deleteIfExists(out);
      }
      throw e;
    }
    PrintWriter text = spec.commandLine().getOut();
    write(trials);
    if (common.json()) {
      Json.print(text, figures(trials));
    } else {
      text.print(Summary.table(trials));
      text.println();
      text.println("table, figures and pictures: " + out);
      text.flush();
    }
    return ExitCode.DONE;
  }

  private List<Scenario> chosen() {
    if (scenarios == null) {
      return Arrays.stream(Scenario.values()).filter(s -> s != Scenario.THUMPS).toList();
    }
    List<String> all = Arrays.stream(Scenario.values()).map(Scenario::key).toList();
    List<Scenario> found = new ArrayList<>();
    for (String name : scenarios) {
      int at = all.indexOf(name.trim());
      if (at < 0) {
        throw new IllegalArgumentException(
            "there is no scenario \""
                + name
                + "\""
                + Nearest.hint(name, all)
                + "; scenarios are "
                + String.join(", ", all));
      }
      found.add(Scenario.values()[at]);
    }
    return found;
  }

  private List<Sound> sounds() throws IOException {
    List<Sound> read = new ArrayList<>();
    for (Path file : sounds) {
      Usage.fileName(file);
      try {
        read.add(Sound.of(file, seconds));
      } catch (IllegalArgumentException unfit) {
        throw new UsageException(unfit.getMessage());
      }
    }
    return read.isEmpty() ? List.of(Sound.demo(seconds)) : read;
  }

  private void write(List<Trial> trials) throws IOException {
    byte[] recall = EvaluationCharts.precisionAndRecall(trials);
    List<String> names = new ArrayList<>(List.of(TABLE, FIGURES, ALARMS));
    if (recall != null) {
      names.add(RECALL);
    }
    StringWriter json = new StringWriter();
    Json.print(new PrintWriter(json), figures(trials));
    try (OutputSet outputs = OutputSet.open(out, names, replace)) {
      Files.writeString(outputs.temporary(TABLE), Summary.table(trials));
      Files.write(
          outputs.temporary(FIGURES),
          json.toString().replace(System.lineSeparator(), "\n").getBytes(StandardCharsets.UTF_8));
      Files.write(outputs.temporary(ALARMS), EvaluationCharts.alarms(trials));
      if (recall != null) {
        Files.write(outputs.temporary(RECALL), recall);
      }
      outputs.commit();
    }
  }

  private Map<String, Object> figures(List<Trial> trials) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("evaluate", 1);
    all.put("toolVersion", Version.number());
    all.put("seconds", seconds);
    all.put("trials", trials);
    return all;
  }
}
