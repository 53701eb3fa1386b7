package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.click.BenchWav;
import org.groovemend.job.proof.Revert;
import org.groovemend.job.proof.Verify;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.CurveParameters;
import org.groovemend.playback.CurveTaken;
import org.groovemend.playback.PlaybackCurve;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The curve stage within a restoration. */
class CurveRestoreTest {
  private static final int RATE = 48_000;
  private static final double[] TONES = {100, 1000, 10_000};
  private static final CurveParameters RIAA = CurveParameters.defaults().withApply("riaa");

  @TempDir Path folder;

  /** Four seconds of bare groove, then three tones of the same size. */
  private Path side(String name, double size) throws Exception {
    Random random = new Random(3);
    double[] x = new double[9 * RATE];
    for (int i = 0; i < x.length; i++) {
      x[i] = 1e-3 * random.nextGaussian();
      if (i > 4 * RATE) {
        for (double hertz : TONES) {
          x[i] += size * StrictMath.sin(2 * Math.PI * hertz * i / RATE);
        }
      }
    }
    Path file = folder.resolve(name + ".wav");
    new BenchWav(AudioFormat.pcm(RATE, 1, 24), new double[][] {x}).write(file);
    return file;
  }

  private RestoreOutcome restore(Path side, Treatment treatment, Path grooveOf) throws Exception {
    return Restore.run(
        new RestoreRequest(
            side,
            folder.resolve("out"),
            treatment,
            null,
            grooveOf,
            true,
            "test",
            Instant.parse("2026-03-01T12:00:00Z")),
        Crew.alone(),
        Progress.SILENT,
        ReportWish.WITHOUT_CLIPS);
  }

  private static Treatment treatment(CurveParameters curve, StageId... stages) {
    return Treatment.defaults()
        .withCaptured(CaptureCurve.FLAT)
        .withCurve(curve)
        .withStages(List.of(stages));
  }

  private static double[] samples(Path file) throws Exception {
    try (SideReader reader = SideFiles.open(file)) {
      int n = (int) reader.frames();
      long[][] words = new long[1][n];
      reader.readWords(0, n, words, 0);
      double[] x = new double[n];
      org.groovemend.audio.Words.toDoubles(words[0], 0, x, 0, n, reader.format());
      return x;
    }
  }

  private static double tone(double[] x, double hertz) {
    double re = 0;
    double im = 0;
    for (int i = 6 * RATE; i < 8 * RATE; i++) {
      re += x[i] * StrictMath.cos(2 * Math.PI * hertz * i / RATE);
      im += x[i] * StrictMath.sin(2 * Math.PI * hertz * i / RATE);
    }
    return 10 * StrictMath.log10(re * re + im * im);
  }

  private static JsonNode analysis(Path ledger, String name) throws Exception {
    ObjectMapper mapper = new ObjectMapper();
    for (String line : Files.readAllLines(ledger)) {
      JsonNode node = mapper.readTree(line);
      if (line.contains("\"" + name + "\"") && node.toString().contains("\"analysis\"")) {
        return node;
      }
    }
    throw new AssertionError("no analysis " + name);
  }

  @Test
  void theCopyIsThroughTheCurveAndTheOriginalComesBack() throws Exception {
    Path side = side("flat", 0.03);
    RestoreOutcome outcome =
        restore(side, treatment(RIAA.withReason("the label says so"), StageId.CURVE), null);
    double[] before = samples(side);
    double[] after = samples(outcome.restoredFile());
    for (double hertz : TONES) {
      assertThat(tone(after, hertz) - tone(before, hertz))
          .isCloseTo(PlaybackCurve.MICROGROOVE.gainDb(hertz), within(0.02));
    }
    assertThat(outcome.stagesApplied()).containsExactly("curve");
    assertThat(Files.readString(outcome.reportFile()))
        .contains("Reason: the label says so")
        .contains("A playback curve was applied (riaa)");
    JsonNode finding = analysis(outcome.ledgerFile(), "curve");
    assertThat(finding.findValue("trebleMicroseconds")).isNotNull();
    assertThat(finding.findValue("reason").asText()).isEqualTo("the label says so");
    assertThat(finding.findValue("sections").size()).isPositive();
    assertThat(analysis(outcome.ledgerFile(), "curveTaken").findValue("overSamples").asLong())
        .isZero();
    Path back = folder.resolve("back.wav");
    Revert.run(outcome.ledgerFile(), new LedgerFiles(null, null, null), back, false);
    assertThat(Files.mismatch(back, side)).isEqualTo(-1);
    assertThat(Verify.failed(Verify.run(outcome.ledgerFile(), new LedgerFiles(null, null, null))))
        .isFalse();
  }

  /** The noise profile is that of the side behind the curve, from this side and from another. */
  @Test
  void noiseIsMeasuredBehindTheCurve() throws Exception {
    Path side = side("hiss", 0.03);
    Treatment flat = treatment(RIAA, StageId.NOISE);
    Treatment curved = treatment(RIAA, StageId.CURVE, StageId.NOISE);
    for (Path other : new Path[] {null, side("other", 0.02)}) {
      JsonNode before = bands(restore(side, flat, other));
      JsonNode after = bands(restore(side, curved, other));
      for (int b = 0; b < before.size(); b++) {
        double hertz = before.get(b).get("centreHz").asDouble();
        if (hertz > 300 && hertz < 18_000) {
          double change = level(after, b) - level(before, b);
          // a band is averaged in power over a slope of up to 6 dB an octave
          assertThat(change)
              .as("%f Hz", hertz)
              .isCloseTo(PlaybackCurve.MICROGROOVE.gainDb(hertz), within(0.4));
        }
      }
    }
  }

  private static JsonNode bands(RestoreOutcome outcome) throws Exception {
    return analysis(outcome.ledgerFile(), "noise").findValue("thirdOctaves");
  }

  private static double level(JsonNode bands, int b) {
    return bands.get(b).get("levelDbfs").get(0).asDouble();
  }

  /** What the other stages did to the floor, not what the curve did. */
  @Test
  void theNoiseFloorIsComparedBehindTheCurve() throws Exception {
    Path side = side("floor", 0.03);
    RestoreOutcome outcome = restore(side, treatment(RIAA, StageId.CURVE), null);
    JsonNode floor = analysis(outcome.ledgerFile(), "noiseFloor");
    JsonNode before = floor.findValue("before").findValue("thirdOctaves");
    JsonNode after = floor.findValue("after").findValue("thirdOctaves");
    for (int b = 0; b < before.size(); b++) {
      assertThat(level(after, b)).isCloseTo(level(before, b), within(0.01));
    }
    assertThat(Files.readString(outcome.reportFile())).contains("through the same curve");
  }

  @Test
  void whatWouldBeCutOffIsRefusedWithTheGainItNeeds() throws Exception {
    Path side = side("loud", 0.3);
    String said = refusal(side, RIAA);
    assertThat(said).contains("nothing was written");
    assertThat(folder.resolve("out")).doesNotExist();
    double gain = Double.parseDouble(said.replaceFirst(".*--curve-gain (\\S+) .*", "$1"));
    // the steady sum of the tones is a lower bound
    double steady = 0;
    for (double hertz : TONES) {
      steady += 0.3 * StrictMath.pow(10, PlaybackCurve.MICROGROOVE.gainDb(hertz) / 20);
    }
    assertThat(gain).isBetween(-8.0, -20 * StrictMath.log10(steady) + 0.2);
    // a little more is too much, so much is enough
    refusal(side, RIAA.withGainDb(gain + 0.2));
    assertThat(
            restore(side, treatment(RIAA.withGainDb(gain), StageId.CURVE), null).clippedSamples())
        .isZero();
    // words of floats hold it, and a remark says so
    RestoreRequest request =
        new RestoreRequest(
            side, folder, treatment(RIAA, StageId.CURVE), null, true, "test", Instant.EPOCH);
    CurveTaken over = new CurveTaken(-1, 6, 3, -10, 0);
    assertThat(CurvePlan.requireRoom(request, over, AudioFormat.ieeeFloat(RATE, 1, 32)))
        .hasValueSatisfying(remark -> assertThat(remark).contains("3 samples above full scale"));
  }

  private String refusal(Path side, CurveParameters curve) {
    return assertThrows(
            RequestRefusedException.class,
            () -> restore(side, treatment(curve, StageId.CURVE), null))
        .getMessage();
  }

  @Test
  void contradictionsAreRefused() throws Exception {
    Path side = side("any", 0.03);
    Treatment nothing = treatment(CurveParameters.defaults(), StageId.CURVE);
    Treatment twice = treatment(RIAA, StageId.CURVE).withCaptured(CaptureCurve.RIAA);
    Treatment other =
        treatment(RIAA.withUndo("nab"), StageId.CURVE).withCaptured(CaptureCurve.RIAA);
    Treatment undoFlat = treatment(RIAA.withUndo("riaa"), StageId.CURVE);
    for (Treatment t : List.of(nothing, twice, other, undoFlat)) {
      assertThatThrownBy(() -> restore(side, t, null)).isInstanceOf(RequestRefusedException.class);
    }
    assertThatThrownBy(() -> restore(side, other, null)).hasMessageContaining("one and the same");
    assertThatThrownBy(
            () ->
                restore(
                    side,
                    treatment(RIAA, StageId.CURVE).withCaptured(CaptureCurve.of("nab")),
                    null))
        .hasMessageContaining("--undo-curve nab");
    // what the curve stage takes back is what clicks are sought with, if nothing else was stated
    Treatment told =
        treatment(CurveParameters.defaults().withUndo("nab"), StageId.CLICKS, StageId.CURVE)
            .withCaptured(CaptureCurve.UNKNOWN);
    assertThat(told.capturedThrough().key()).isEqualTo("nab");
    RestoreOutcome outcome = restore(side, told.withCurve(told.curve().withGainDb(-20)), null);
    assertThat(analysis(outcome.ledgerFile(), "clicks").findValue("domain").asText())
        .isEqualTo("curve-undone");
    assertThat(Files.readString(outcome.ledgerFile())).contains("\"capturedThrough\":\"nab\"");
    // a disc of 20 played at 80: its 1 kHz lies at 4 kHz, half of this rate
    assertThatThrownBy(
            () ->
                CurvePlan.requireRealisable(RIAA.withSpeeds(20, 80), AudioFormat.pcm(8000, 1, 16)))
        .isInstanceOf(RequestRefusedException.class)
        .hasMessageContaining("too low");
    // and what is doubtful is said
    Treatment unknown =
        treatment(
                CurveParameters.defaults().withApply("coarse-500-12").withGainDb(-20),
                StageId.CURVE)
            .withCaptured(CaptureCurve.UNKNOWN);
    assertThat(restore(side, unknown, null).remarks())
        .anyMatch(r -> r.contains("not stated"))
        .anyMatch(r -> r.contains("from memory"))
        .anyMatch(r -> r.contains("13.7 dB"))
        .anyMatch(r -> r.contains("no shelf"));
  }
}
