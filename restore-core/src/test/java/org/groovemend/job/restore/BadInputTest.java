package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.Words;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.job.proof.Revert;
import org.groovemend.job.proof.Verify;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Sides that are no music, whole default treatment: a sensible result, which verifies and goes back
 * byte for byte, or a refusal that writes nothing.
 */
class BadInputTest {
  private static final int RATE = 44_100;
  private static final AudioFormat MONO = AudioFormat.pcm(RATE, 1, 16);

  @TempDir Path folder;

  /** Restores planar samples, full scale 1.0, and proves the result. */
  private Result restore(AudioFormat format, double[]... channels) throws Exception {
    int frames = channels[0].length;
    double scale = (1L << (format.containerBits() - 1)) - 1;
    long[][] words = new long[channels.length][frames];
    for (int c = 0; c < channels.length; c++) {
      for (int n = 0; n < frames; n++) {
        words[c][n] = Math.round(scale * Math.max(-1, Math.min(1, channels[c][n])));
      }
    }
    Path side = folder.resolve("side.wav");
    try (WavWriter writer =
        WavWriter.create(side, format, frames, List.of(WavChunk.samples()), null)) {
      writer.write(words, 0, frames);
    }
    RestoreOutcome outcome =
        Restore.run(
            new RestoreRequest(
                side,
                folder.resolve("out"),
                Treatment.defaults(),
                null,
                false,
                "test",
                Instant.parse("2026-03-01T12:00:00Z")),
            Crew.alone(),
            Progress.SILENT);
    assertThat(Verify.failed(Verify.run(outcome.ledgerFile(), new LedgerFiles(null, null, null))))
        .isFalse();
    Path back = folder.resolve("back.wav");
    Revert.run(outcome.ledgerFile(), new LedgerFiles(null, null, null), back, false);
    assertThat(back).hasSameBinaryContentAs(side);
    Ledger ledger = Ledger.open(outcome.ledgerFile());
    List<LedgerEdit> edits = new ArrayList<>();
    ledger.forEachEdit(edits::add);
    long samples = (long) frames * channels.length;
    return new Result(outcome, ledger, edits, read(outcome.restoredFile()), samples);
  }

  private record Result(
      RestoreOutcome outcome,
      Ledger ledger,
      List<LedgerEdit> edits,
      double[][] restored,
      long samples) {
    double share() {
      return outcome.changedSamples() / (double) samples;
    }
  }

  private static double[][] read(Path file) throws Exception {
    try (SideReader side = SideFiles.open(file)) {
      int frames = (int) side.frames();
      long[][] words = new long[side.format().channels()][frames];
      side.readWords(0, frames, words, 0);
      double[][] x = new double[words.length][frames];
      for (int c = 0; c < words.length; c++) {
        Words.toDoubles(words[c], 0, x[c], 0, frames, side.format());
      }
      return x;
    }
  }

  private static double[] music(int frames, double level, long seed) {
    Random random = new Random(seed);
    double[] x = new double[frames];
    for (int n = 0; n < frames; n++) {
      double v = 0;
      for (int k = 1; k <= 5; k++) {
        v += level / k * StrictMath.sin(2 * Math.PI * n * k * 231.7 / RATE + k);
      }
      x[n] = v + 1e-3 * level * random.nextGaussian();
    }
    return x;
  }

  private static void click(double[] x, int at, double peak) {
    double[] shape = {0.5, 1, -0.8, 0.5, -0.3, 0.2, -0.1};
    for (int i = 0; i < shape.length && at + i < x.length; i++) {
      x[at + i] += peak * shape[i];
    }
  }

  /** All groove and no music: hardly a click, lowered evenly, and a person is told. */
  @Test
  void noiseIsNamedAndNotTakenForClicks() throws Exception {
    Random random = new Random(1);
    double[] x = new double[4 * RATE];
    for (int n = 0; n < x.length; n++) {
      x[n] = 0.2 * random.nextGaussian();
    }
    Result result = restore(MONO, x);
    assertThat(result.edits()).hasSizeLessThanOrEqualTo(3);
    assertThat(result.outcome().remarks()).contains(Restore.ONLY_GROOVE);
    double level =
        10
            * StrictMath.log10(
                error(result.restored()[0], new double[x.length]) / error(x, new double[x.length]));
    assertThat(level).isBetween(-9.0, -5.0);
  }

  @Test
  void digitalSilenceIsNamedAndUntouched() throws Exception {
    Result result = restore(MONO, new double[2 * RATE]);
    assertThat(result.outcome().remarks()).contains(Restore.SILENT);
    assertThat(result.outcome().changedSamples()).isZero();
  }

  /** Its steps are as sharp as clicks, but they are all there is: they stay. */
  @Test
  void aSquareWaveKeepsItsSteps() throws Exception {
    double[] x = new double[RATE];
    for (int n = 0; n < x.length; n++) {
      x[n] = n / 50 % 2 == 0 ? 1 : -1;
    }
    Result result = restore(AudioFormat.pcm(RATE, 2, 16), x, x.clone());
    assertThat(result.share()).isLessThan(0.001);
  }

  @Test
  void aNeedleDropAloneIsLeftOrSoftenedButSilenceStaysSilent() throws Exception {
    double[] x = new double[3 * RATE];
    Random random = new Random(2);
    for (int n = 0; n < RATE; n++) {
      double t = n / (double) RATE;
      x[RATE / 2 + n] =
          0.9 * StrictMath.exp(-t / 0.05) * StrictMath.cos(2 * Math.PI * 25 * t)
              + 0.2 * StrictMath.exp(-t / 0.004) * random.nextGaussian();
    }
    Result result = restore(MONO, x);
    double[] y = result.restored()[0];
    for (int n = 0; n < y.length; n++) {
      boolean before = n < RATE / 2;
      assertThat(Math.abs(y[n])).isLessThanOrEqualTo(before ? 0 : 1);
      if (n >= 3 * RATE / 2 + RATE / 2) {
        assertThat(y[n]).isZero();
      }
    }
  }

  @Test
  void aDeadChannelStaysDeadAndTheOtherIsRepaired() throws Exception {
    double[] x = music(4 * RATE, 0.2, 3);
    double[] clean = x.clone();
    for (int k = 0; k < 12; k++) {
      click(x, RATE / 2 + k * RATE / 4, 0.4);
    }
    Result result = restore(AudioFormat.pcm(RATE, 2, 24), x, new double[x.length]);
    assertThat(result.restored()[1]).containsOnly(0);
    assertThat(result.edits()).allMatch(e -> e.channel() == 0);
    assertThat(result.edits().size()).isBetween(11, 13);
    double worst = 0;
    for (int n = 0; n < x.length; n++) {
      worst = Math.max(worst, Math.abs(result.restored()[0][n] - clean[n]));
    }
    assertThat(worst).isLessThan(0.02);
  }

  /** One millisecond, one sample: too short to judge, and unchanged. */
  @Test
  void aMillisecondAndASampleComeThroughUnchanged() throws Exception {
    Result result = restore(MONO, music(44, 0.3, 4));
    assertThat(result.outcome().changedSamples()).isZero();
    for (Path file : list()) {
      Files.deleteIfExists(file);
    }
    assertThat(restore(MONO, new double[] {0.5}).outcome().changedSamples()).isZero();
  }

  private List<Path> list() throws Exception {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(Files::isRegularFile).toList();
    }
  }

  @Test
  void noSamplesAtAllAreRefusedInASentenceAndNothingIsWritten() {
    assertThatThrownBy(() -> restore(MONO, new double[0]))
        .isInstanceOf(InputRejectedException.class)
        .hasMessageContaining("side.wav");
    assertThat(folder.resolve("out")).doesNotExist();
  }

  /** Dense bursts over 30 % of the side: better than it was, or left; never louder. */
  @Test
  void thirtyPerCentDamageIsNotMadeWorse() throws Exception {
    double[] x = music(3 * RATE / 2, 0.15, 5);
    double[] clean = x.clone();
    Random random = new Random(6);
    for (int n = 2000; n < x.length - 2000; n += 200) {
      for (int i = 0; i < 60; i++) {
        x[n + i] += 0.3 * random.nextGaussian() * (1 - i / 60.0);
      }
    }
    Result result = restore(MONO, x);
    assertThat(error(result.restored()[0], clean)).isLessThanOrEqualTo(error(x, clean));
  }

  private static double error(double[] x, double[] clean) {
    double sum = 0;
    for (int n = 0; n < x.length; n++) {
      sum += (x[n] - clean[n]) * (x[n] - clean[n]);
    }
    return sum;
  }

  @Test
  void clippedMusicIsNamedAndNotTakenForClicks() throws Exception {
    double[] x = music(3 * RATE, 2, 7);
    Result result = restore(MONO, x);
    assertThat(result.ledger().analyses())
        .filteredOn(a -> a.name().equals("levels"))
        .allSatisfy(a -> assertThat(a.result().toString()).contains("clippedRuns="));
    assertThat(result.share()).isLessThan(0.01);
  }

  @Test
  void aConstantOffsetIsUntouched() throws Exception {
    double[] x = new double[2 * RATE];
    Arrays.fill(x, 0.25);
    assertThat(restore(MONO, x).outcome().changedSamples()).isZero();
  }

  /** In silence one impulse may be a click or a mark: it is repaired or left, nothing is added. */
  @Test
  void anIsolatedImpulseInSilenceLeavesTheRestSilent() throws Exception {
    double[] x = new double[2 * RATE];
    x[RATE] = 0.8;
    Result result = restore(MONO, x);
    double[] y = result.restored()[0];
    for (int n = 0; n < y.length; n++) {
      assertThat(Math.abs(y[n])).isLessThanOrEqualTo(n == RATE ? 0.81 : 1e-4);
    }
  }
}
