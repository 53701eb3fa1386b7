package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.flac.FlacWriter;
import org.groovemend.chain.Progress;
import org.groovemend.job.proof.Revert;
import org.groovemend.job.side.BroadcastCopy;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.speed.SpeedCopy;
import org.groovemend.job.walls.WallComparison;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.simulate.RestraintPiece;
import org.groovemend.simulate.TwoWalls;
import org.groovemend.simulate.TwoWalls.Groove;
import org.groovemend.speed.TimeMap;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.groovemend.walls.MonoParameters;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The mono stage from file to file. */
@Tag("long")
class WallsJobTest {
  private static final int RATE = 44_100;

  @TempDir private Path dir;

  private Path side(double[][] x) throws IOException {
    AudioFormat format = AudioFormat.pcm(RATE, x.length, 16);
    long[][] words = new long[x.length][x[0].length];
    for (int c = 0; c < x.length; c++) {
      for (int i = 0; i < words[c].length; i++) {
        words[c][i] = Math.round(Math.max(-1, Math.min(0.999, x[c][i])) * 32_768);
      }
    }
    Path file = dir.resolve("side.flac");
    Files.deleteIfExists(file);
    try (FlacWriter writer = new FlacWriter(file, format, x[0].length, null, 1)) {
      writer.write(words, 0, x[0].length);
    }
    return file;
  }

  /** Bare groove of two seconds, then the tune. */
  private static double[][] worn(Groove groove) {
    TwoWalls walls = TwoWalls.tune(groove, 8, RATE, 4);
    double[][] x = walls.samples();
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < 2 * RATE; i++) {
        x[c][i] -= walls.music()[c][i];
      }
    }
    return x;
  }

  private RestoreOutcome restore(Path side, Treatment treatment, String out) throws IOException {
    RestoreRequest request =
        new RestoreRequest(
            side, dir.resolve(out), treatment, null, null, false, "test", Instant.EPOCH);
    return Restore.run(request, Crew.alone(), Progress.SILENT, ReportWish.WITHOUT_CLIPS);
  }

  private static Treatment stages(StageId... stages) {
    return Treatment.defaults().withStages(List.of(stages));
  }

  @Test
  void bothChannelsHoldTheSameWordsAndTheOriginalComesBack() throws Exception {
    Path side = side(worn(Groove.equal(-24).withNoise(-24, -30, 0).withDelay(0.7)));
    RestoreOutcome outcome =
        restore(side, stages(StageId.CLICKS, StageId.MONO, StageId.NOISE), "out");
    assertThat(outcome.stagesApplied()).containsExactly("clicks", "mono", "noise");
    try (SideReader copy = SideFiles.open(outcome.restoredFile())) {
      int n = (int) copy.frames();
      long[][] words = new long[2][n];
      copy.readWords(0, n, words, 0);
      assertThat(Arrays.equals(words[0], words[1])).isTrue();
      assertThat(Arrays.stream(words[0]).filter(w -> w != 0).count()).isGreaterThan(n / 2);
    }
    String page = Files.readString(outcome.reportFile());
    assertThat(page)
        .contains("joined into one signal")
        .contains("Right wall behind left")
        .contains("the left wall has")
        .contains("One lateral signal on both walls");
    Map<String, Object> weights = analysis(outcome.ledgerFile(), "wallWeights");
    assertThat((List<?>) weights.get("frames")).hasSameSizeAs((List<?>) weights.get("leftShares"));
    assertThat(analysis(outcome.ledgerFile(), "walls")).containsEntry("verdict", "LATERAL");
    Path back = dir.resolve("back.flac");
    Revert.run(outcome.ledgerFile(), new LedgerFiles(null, null, null), back, false);
    assertThat(Files.readAllBytes(back)).isEqualTo(Files.readAllBytes(side));
  }

  /** The last line of a file's coding history. */
  private static String lastLine(Path wav) throws IOException {
    try (SideReader copy = SideFiles.open(wav)) {
      for (WavChunk chunk : copy.wavChunks()) {
        if (chunk.id().equals("bext")) {
          String history = BroadcastExtension.parse(BroadcastCopy.read(wav, chunk)).codingHistory();
          List<String> lines = history.lines().toList();
          return lines.get(lines.size() - 1);
        }
      }
    }
    throw new AssertionError("no bext in " + wav);
  }

  /** EBU R 98: what was two walls is one signal in two channels from then on. */
  @Test
  void theCodingHistoryTellsOfTheJoinedWalls() throws IOException {
    Path mono = side(worn(Groove.equal(-24)));
    Path joined = restore(mono, stages(StageId.MONO), "joined").restoredFile();
    assertThat(lastLine(joined))
        .startsWith("A=PCM,F=44100,W=16,M=dual-mono,T=groovemend test; mono; ledger ");
    Path apart = restore(mono, stages(StageId.CLICKS), "apart").restoredFile();
    assertThat(lastLine(apart)).startsWith("A=PCM,F=44100,W=16,M=stereo,T=");
    MonoParameters aligned = MonoParameters.defaults().with(MonoParameters.Result.ALIGNED);
    Path shifted = restore(mono, stages(StageId.MONO).withMono(aligned), "aligned").restoredFile();
    assertThat(lastLine(shifted)).contains(",M=stereo,");
    // a copy at another speed of each goes on from there
    for (Path copy : List.of(joined, apart)) {
      Path faster = copy.resolveSibling("faster.wav");
      SpeedCopy.run(
          new SpeedCopy.Request(
              copy, TimeMap.of(1.01), "stated", faster, 48_000, 1, false, "test", Instant.EPOCH),
          Crew.alone(),
          Progress.SILENT);
      assertThat(lastLine(faster))
          .startsWith(
              "A=PCM,F=48000,W=16,M=" + (copy == joined ? "dual-mono" : "stereo") + ",T=groovemend")
          .contains("speed x 1.010000");
    }
    Path one = side(new double[][] {worn(Groove.equal(-24))[0]});
    assertThat(lastLine(restore(one, stages(StageId.CLICKS), "one").restoredFile()))
        .startsWith("A=PCM,F=44100,W=16,M=mono,T=");
  }

  private static Map<String, Object> analysis(Path ledger, String name) throws IOException {
    for (AnalysisRecord analysis : Ledger.open(ledger).analyses()) {
      if (analysis.name().equals(name)) {
        return analysis.result();
      }
    }
    throw new AssertionError("no " + name);
  }

  @Test
  void aStereoSideIsLeftApartAndSaidSo() throws IOException {
    Path side = side(RestraintPiece.DRUM_KIT.play(RATE, 6, 1));
    RestoreOutcome outcome = restore(side, stages(StageId.MONO), "out");
    assertThat(outcome.changedSamples()).isZero();
    assertThat(outcome.remarks())
        .anyMatch(r -> r.startsWith("The mono stage left the walls apart") && r.endsWith("."));
    RestoreOutcome insisted =
        restore(
            side,
            stages(StageId.MONO)
                .withMono(MonoParameters.defaults().with(MonoParameters.When.ALWAYS)),
            "insisted");
    assertThat(insisted.changedSamples()).isPositive();
  }

  @Test
  void oneChannelIsLeftAsItIs() throws IOException {
    Path side = side(new double[][] {worn(Groove.equal(-24))[0]});
    RestoreOutcome outcome = restore(side, stages(StageId.MONO), "out");
    assertThat(outcome.changedSamples()).isZero();
    assertThat(outcome.remarks()).anyMatch(r -> r.contains("nothing to join"));
  }

  @Test
  void theNoiseIsMeasuredOfTheJoinedWalls() throws IOException {
    Path side = side(worn(Groove.equal(-24)));
    double apart = floor(restore(side, stages(StageId.NOISE), "apart"));
    double joined = floor(restore(side, stages(StageId.MONO, StageId.NOISE), "joined"));
    // half the power of equal independent noise
    assertThat(apart - joined).isBetween(2.5, 3.5);
  }

  /** Level of the noise the stage reckoned with, dB. */
  private static double floor(RestoreOutcome outcome) throws IOException {
    List<?> channels = (List<?>) analysis(outcome.ledgerFile(), "noise").get("power");
    double sum = 0;
    for (Object line : (List<?>) channels.get(0)) {
      sum += ((Number) line).doubleValue();
    }
    return 10 * Math.log10(sum);
  }

  @Test
  void aPictureOfASideWithoutTwoWallsIsRefused() throws IOException {
    Path side = side(new double[][] {worn(Groove.equal(-24))[0]});
    Path png = dir.resolve("walls.png");
    assertThatThrownBy(
            () -> WallComparison.run(new WallComparison.Request(side, png, false), Progress.SILENT))
        .isInstanceOf(RequestRefusedException.class)
        .hasMessageContaining("1 channel");
    assertThat(png).doesNotExist();
  }
}
