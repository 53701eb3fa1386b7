package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.job.proof.Verify;
import org.groovemend.job.side.TimeRange;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.CurveParameters;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the page, the ledger and the outcome say of noise and music, against the files. */
@Tag("long")
class ListeningReportTest {

  private static final int RATE = 22_050;
  private static final int LEAD_IN = 3 * RATE;
  private static final int FRAMES = 30 * RATE;
  private static final AudioFormat MONO = AudioFormat.pcm(RATE, 1, 24);
  private static final Pattern CLIP = Pattern.compile("data:audio/flac;base64,([A-Za-z0-9+/=]+)");

  @TempDir Path folder;
  private Path side;

  /** Three seconds of white noise, then struck notes in it. */
  @BeforeEach
  void makeSide() throws IOException {
    side = folder.resolve("side.wav");
    Random random = new Random(4);
    long[][] words = new long[1][FRAMES];
    for (int i = 0; i < FRAMES; i++) {
      double x = 0.003 * random.nextGaussian();
      if (i >= LEAD_IN) {
        double time = (i - LEAD_IN) % (3 * RATE) / (double) RATE;
        x += 0.3 * Math.pow(10, -1.2 * time) * Math.sin(2 * Math.PI * 700 * time);
      }
      words[0][i] = Math.round(x * (1 << 23));
    }
    try (WavWriter writer =
        WavWriter.create(side, MONO, FRAMES, List.of(WavChunk.samples()), null)) {
      writer.write(words, 0, FRAMES);
    }
  }

  private RestoreOutcome restore(ReportWish wish, StageId... stages) throws IOException {
    return restore(wish, Treatment.defaults().withStages(List.of(stages)));
  }

  private RestoreOutcome restore(ReportWish wish, Treatment treatment) throws IOException {
    return Restore.run(
        new RestoreRequest(
            side, folder, treatment, TimeRange.parse("0-3"), true, "test", Instant.EPOCH),
        Crew.alone(),
        Progress.SILENT,
        wish);
  }

  private static double[] samples(Path file) throws IOException {
    try (SideReader reader = SideFiles.open(file)) {
      int frames = (int) reader.frames();
      long[][] words = new long[1][frames];
      reader.readWords(0, frames, words, 0);
      double[] x = new double[frames];
      for (int i = 0; i < frames; i++) {
        x[i] = words[0][i] / (double) (1L << reader.format().containerBits() - 1);
      }
      return x;
    }
  }

  private static double levelDb(double[] x, int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += x[i] * x[i];
    }
    return 10 * Math.log10(sum / (to - from));
  }

  private static List<byte[]> clips(String page) {
    List<byte[]> clips = new ArrayList<>();
    Matcher matcher = CLIP.matcher(page);
    while (matcher.find()) {
      clips.add(Base64.getDecoder().decode(matcher.group(1)));
    }
    return clips;
  }

  @SuppressWarnings("unchecked")
  private static double floor(RestoreOutcome outcome, String when) {
    Map<String, Object> of = (Map<String, Object>) outcome.comparison().noiseFloor().get(when);
    return ((List<Map<String, Double>>) of.get("channels")).get(0).get("dbfs");
  }

  @Test
  void noiseFloorIsThatOfTheFilesAndStandsOnThePageAndInTheLedger() throws Exception {
    RestoreOutcome outcome = restore(ReportWish.WITHOUT_CLIPS, StageId.NOISE);
    double before = floor(outcome, "before");
    double after = floor(outcome, "after");
    // white noise: 0.2 % of its power lies below 20 Hz; three seconds tell it to 0.03 dB, and the
    // spectrum to a little less at both ends
    assertThat(before).isCloseTo(levelDb(samples(side), 0, LEAD_IN), within(0.15));
    assertThat(after).isCloseTo(levelDb(samples(outcome.restoredFile()), 0, LEAD_IN), within(0.3));
    assertThat(after).isLessThan(before - 3);
    String page = Files.readString(outcome.reportFile());
    assertThat(page)
        .contains(String.format("<td class=\"value\">%.1f</td>", before))
        .contains(String.format("<td class=\"value\">%.1f</td>", after))
        .contains("the stretch stated as bare groove, 0.00 to 3.00 s")
        .contains("Clips to listen to were left out, as asked.")
        .doesNotContain("<audio");
    assertThat(Files.readString(outcome.ledgerFile()))
        .contains("\"name\":\"noiseFloor\"")
        .contains("\"dbfs\":" + before);
    assertThat(
            Verify.failed(
                Verify.run(
                    outcome.ledgerFile(), new org.groovemend.ledger.LedgerFiles(null, null, null))))
        .isFalse();
  }

  @Test
  void musicIsKeptWhereOnlyNoiseIsLowered() throws Exception {
    RestoreOutcome outcome = restore(ReportWish.WITHOUT_CLIPS, StageId.NOISE);
    KeptMusic all = outcome.comparison().keptMusic().get(0);
    assertThat(all.fromHertz()).isEqualTo(100);
    // nine notes; the last ends with the side
    assertThat(all.onsets().count()).isEqualTo(9);
    assertThat(all.decays().count()).isBetween(8L, 9L);
    assertThat(all.onsets().medianDb()).isCloseTo(0, within(0.5));
    assertThat(Files.readString(outcome.reportFile())).contains("Decays, 100 Hz and up");
  }

  /** Both behind the curve: what is told is what the other stages did. */
  @Test
  void behindACurveMusicIsComparedThroughTheSameCurve() throws Exception {
    CurveParameters curve = CurveParameters.defaults().withApply("aes-1951").withGainDb(-6);
    Treatment alone =
        Treatment.defaults()
            .withCaptured(CaptureCurve.FLAT)
            .withCurve(curve)
            .withStages(List.of(StageId.CURVE));
    List<KeptMusic> kept = restore(ReportWish.WITHOUT_CLIPS, alone).comparison().keptMusic();
    assertThat(kept).hasSize(2);
    assertThat(kept.get(0).onsets().count()).isEqualTo(9);
    assertThat(kept.get(0).decays().count()).isPositive();
    for (KeptMusic music : kept) {
      // dither of 24 bits aside; without the same curve it would be 6 dB and more
      assertThat(music.onsets().medianDb()).isCloseTo(0, within(0.01));
      assertThat(music.decays().medianDb()).isCloseTo(0, within(0.01));
      assertThat(music.onsets().worstDb()).isCloseTo(0, within(0.01));
    }
  }

  @Test
  void clipsOnThePageAreTheFilesAtTheStatedGain() throws Exception {
    RestoreOutcome outcome = restore(ReportWish.WITH_CLIPS, StageId.NOISE);
    String page = Files.readString(outcome.reportFile());
    Matcher gain = Pattern.compile("Played at ([-+][0-9.]+) dB").matcher(page);
    assertThat(gain.find()).isTrue();
    double factor = Math.pow(10, Double.parseDouble(gain.group(1)) / 20);
    long start = outcome.comparison().listening().get(0).startFrame();
    List<byte[]> clips = clips(page);
    // quietest, loudest, end: before, after, removed; that raised of the first two
    assertThat(clips.size()).isEqualTo(11);
    assertThat(page).contains("No fade was found. No place was repaired.");
    Path[] files = {side, outcome.restoredFile()};
    for (int v = 0; v < 2; v++) {
      Path file = folder.resolve("clip" + v + ".flac");
      Files.write(file, clips.get(v));
      double[] heard = samples(file);
      double[] wanted = samples(files[v]);
      for (int i = RATE / 100; i < heard.length - RATE / 100; i++) {
        assertThat(heard[i])
            .isCloseTo(factor * wanted[(int) start + i], within(1.5 / (1 << 15) + 1e-9));
      }
    }
    // nothing else is left in the folder
    try (Stream<Path> left = Files.list(folder)) {
      assertThat(left.map(p -> p.getFileName().toString()))
          .noneMatch(name -> name.equals("clip.flac"));
    }
  }

  @Test
  void repairsAloneLeaveMusicAsItWasAndThePageSaysSo() throws Exception {
    RestoreOutcome outcome = restore(ReportWish.WITH_CLIPS, StageId.CLICKS);
    String page = Files.readString(outcome.reportFile());
    assertThat(outcome.comparison().keptMusic()).isEmpty();
    assertThat(page).contains("Only single places were treated").doesNotContain("If noise stayed");
    assertThat(floor(outcome, "after")).isCloseTo(floor(outcome, "before"), within(0.05));
    assertThat(clips(page)).isNotEmpty();
  }

  @Test
  void samePageTwice() throws Exception {
    String one = Files.readString(restore(ReportWish.WITH_CLIPS, StageId.NOISE).reportFile());
    String two = Files.readString(restore(ReportWish.WITH_CLIPS, StageId.NOISE).reportFile());
    assertThat(two).isEqualTo(one);
  }
}
