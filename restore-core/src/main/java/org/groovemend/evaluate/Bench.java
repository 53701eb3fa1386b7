package org.groovemend.evaluate;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.Words;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreOutcome;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.job.restore.Treatment;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.Ledger;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;

/**
 * Damages, restores and scores, one copy after the other; each is written to a folder of its own,
 * restored from there as any file, and deleted.
 */
public final class Bench {
  /** Repairs nearly anything, so that the evidence of what is left out is known too. */
  private static final double PERMISSIVE_ALARMS_PER_MINUTE = 1000;

  private static final int SWEEP_STEPS = 24;
  private static final double SWEEP_STEP = 0.75;

  private final Request request;
  private final Crew crew;
  private final Path folder;

  private Bench(Request request, Crew crew, Path folder) {
    this.request = request;
    this.crew = crew;
    this.folder = folder;
  }

  /**
   * Tries every sound with every scenario and seed.
   *
   * @param within a folder for what comes and goes; a new one in it is made and deleted
   * @throws IOException if a copy cannot be written or restored
   */
  public static List<Trial> run(Request request, Path within, Crew crew, Progress progress)
      throws IOException {
    Path folder = Files.createTempDirectory(within, ".groovemend-evaluate-");
    try {
      Bench bench = new Bench(request, crew, folder);
      List<Trial> trials = new ArrayList<>();
      int total =
          request.sounds().size() * request.scenarios().size() * request.seeds()
              + request.untouchable().size();
      for (Sound sound : request.sounds()) {
        for (Scenario scenario : request.scenarios()) {
          for (int seed = 1; seed <= request.seeds(); seed++) {
            progress.at("trying", trials.size(), total);
            trials.add(bench.trial(sound, scenario, seed));
          }
        }
      }
      for (Sound sound : request.untouchable()) {
        progress.at("trying", trials.size(), total);
        trials.add(bench.trial(sound, Scenario.CLEAN, 1));
      }
      progress.at("trying", total, total);
      return trials;
    } finally {
      delete(folder);
    }
  }

  private Trial trial(Sound sound, Scenario scenario, int seed) throws IOException {
    DamagedCopy copy = DamagedCopy.of(sound, scenario, seed);
    Path side = folder.resolve("copy.wav");
    write(copy.damaged(), sound.sampleRateHz(), side);
    Scorer scorer = new Scorer(copy, sound.sampleRateHz());
    Treatment treatment = treatment(scenario);
    RestoreOutcome outcome = restore(side, treatment);
    Ledger ledger = Ledger.open(outcome.ledgerFile());
    Score score = scorer.score(read(outcome.restoredFile()), found(ledger));
    List<Trial.SweepPoint> sweep = List.of();
    if (!scenario.noisy() && !copy.truth().isEmpty() && treatment.has(StageId.CLICKS)) {
      sweep = sweep(scorer, found(Ledger.open(permissive(side, treatment).ledgerFile())));
    }
    return new Trial(sound.name(), scenario, seed, score, expected(ledger), sweep);
  }

  private Treatment treatment(Scenario scenario) {
    List<StageId> stages = new ArrayList<>();
    for (StageId stage : request.treatment().stages()) {
      if (stage != StageId.NOISE || scenario.noisy()) {
        stages.add(stage);
      }
    }
    if (scenario == Scenario.HUM) {
      // not among the usual stages: a person asks for it where hum is heard, as it is here
      stages.add(StageId.HUM);
    }
    return request.treatment().withStages(stages).withCaptured(CaptureCurve.RIAA);
  }

  private RestoreOutcome permissive(Path side, Treatment t) throws IOException {
    return restore(
        side,
        t.withClicks(t.clicks().withExpectedFalseAlarmsPerMinute(PERMISSIVE_ALARMS_PER_MINUTE)));
  }

  private RestoreOutcome restore(Path side, Treatment treatment) throws IOException {
    return Restore.run(
        new RestoreRequest(
            side, folder, treatment, null, true, request.toolVersion(), Instant.EPOCH),
        crew,
        Progress.SILENT,
        ReportWish.NONE);
  }

  private static List<Trial.SweepPoint> sweep(Scorer scorer, List<FoundRange> found) {
    List<Trial.SweepPoint> points = new ArrayList<>();
    for (int i = 0; i < SWEEP_STEPS; i++) {
      double margin = i * SWEEP_STEP;
      Scorer.Hits hits = scorer.hits(found, margin);
      points.add(
          new Trial.SweepPoint(margin, hits.prominent, hits.found, hits.repairs, hits.wrong));
    }
    return points;
  }

  private static List<FoundRange> found(Ledger ledger) throws IOException {
    List<FoundRange> found = new ArrayList<>();
    ledger.forEachEdit(
        e ->
            found.add(
                new FoundRange(
                    e.channel(), (int) e.start(), (int) e.end(), e.statistic() - e.threshold())));
    return found;
  }

  /** What the click analyser foretold; NaN if it did not run. */
  private static double expected(Ledger ledger) {
    for (AnalysisRecord record : ledger.analyses()) {
      if (record.name().equals(StageId.CLICKS.key())
          && record.result().get("alarms") instanceof Map<?, ?> alarms
          && alarms.get("perMinute") instanceof Number rate) {
        return rate.doubleValue();
      }
    }
    return Double.NaN;
  }

  static void write(double[][] x, int rate, Path file) throws IOException {
    AudioFormat format = AudioFormat.pcm(rate, x.length, 24);
    int frames = x[0].length;
    long[][] words = new long[x.length][frames];
    for (int c = 0; c < x.length; c++) {
      for (int n = 0; n < frames; n++) {
        words[c][n] = Math.round(x[c][n] * 0x1p23);
      }
    }
    Files.deleteIfExists(file);
    try (WavWriter writer =
        WavWriter.create(file, format, frames, List.of(WavChunk.samples()), null)) {
      writer.write(words, 0, frames);
    }
  }

  private static double[][] read(Path file) throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      int frames = (int) side.frames();
      int channels = side.format().channels();
      long[][] words = new long[channels][frames];
      side.readWords(0, frames, words, 0);
      double[][] x = new double[channels][frames];
      for (int c = 0; c < channels; c++) {
        Words.toDoubles(words[c], 0, x[c], 0, frames, side.format());
      }
      return x;
    }
  }

  private static void delete(Path folder) throws IOException {
    List<Path> all;
    try (Stream<Path> walk = Files.walk(folder)) {
      all = walk.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path path : all) {
      Files.deleteIfExists(path);
    }
  }
}
