package org.groovemend.job.demo;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.audio.file.CodingHistory;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.proof.Revert;
import org.groovemend.job.proof.Verify;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreOutcome;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.job.restore.SidePictures;
import org.groovemend.job.restore.Treatment;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.Sha256;
import org.groovemend.ledger.VerificationException;
import org.groovemend.measure.Decibels;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.simulate.DemoScenario;
import org.groovemend.simulate.DemoSide;
import org.groovemend.stage.Crew;

/** The whole path once, on an invented worn side: make, restore, verify, revert, compare. */
public final class Demo {

  static final String NAME = "otter-umbrella";
  private static final long SEED = 1;

  /**
   * What the demonstration showed.
   *
   * @param transfer the invented transfer
   * @param restored what came of restoring it
   * @param checks of the ledger
   * @param reverted the file that was rebuilt
   * @param sameBytes whether it is the transfer, byte for byte
   * @param musicSnrBeforeDb music against everything that is not music, before, dB
   * @param musicSnrAfterDb the same after
   * @param waveformPicture before above after
   * @param spectrogramPicture before above after
   */
  public record Outcome(
      Path transfer,
      RestoreOutcome restored,
      List<Check> checks,
      Path reverted,
      boolean sameBytes,
      double musicSnrBeforeDb,
      double musicSnrAfterDb,
      Path waveformPicture,
      Path spectrogramPicture) {}

  private Demo() {}

  /**
   * Makes, restores, verifies, reverts and compares.
   *
   * @param folder where everything goes; must not hold an earlier demonstration
   */
  public static Outcome run(
      Path folder, String toolVersion, Instant now, Crew crew, Progress progress)
      throws IOException, VerificationException {
    progress.at("making", 0, 1);
    DemoSide demo = DemoSide.generate(SEED);
    Path transfer = write(demo, folder, now);
    RestoreOutcome restored =
        Restore.run(
            new RestoreRequest(
                transfer,
                folder,
                Treatment.defaults().withCaptured(CaptureCurve.FLAT),
                null,
                false,
                toolVersion,
                now),
            crew,
            progress);
    LedgerFiles beside = new LedgerFiles(null, null, null);
    List<Check> checks = Verify.run(restored.ledgerFile(), beside);
    Path reverted = folder.resolve(NAME + ".reverted.wav");
    FileFacts facts = Revert.run(restored.ledgerFile(), beside, reverted, false);
    boolean same =
        Files.mismatch(transfer, reverted) == -1 && facts.sha256().equals(Sha256.of(transfer));

    try (SideReader before = SideFiles.open(transfer);
        SideReader after = SideFiles.open(restored.restoredFile())) {
      String waveform = NAME + ".waveform.png";
      String spectrogram = NAME + ".spectrogram.png";
      try (OutputSet pictures = OutputSet.open(folder, List.of(waveform, spectrogram), false)) {
        SidePictures drawn = SidePictures.of(before, after, crew, progress);
        Files.write(pictures.temporary(waveform), drawn.waveform());
        Files.write(pictures.temporary(spectrogram), drawn.spectrogram());
        pictures.commit();
      }
      return new Outcome(
          transfer,
          restored,
          checks,
          reverted,
          same,
          musicSnr(demo, before),
          musicSnr(demo, after),
          folder.resolve(waveform),
          folder.resolve(spectrogram));
    }
  }

  private static Path write(DemoSide demo, Path folder, Instant now) throws IOException {
    AudioFormat format = AudioFormat.pcm(demo.sampleRateHz(), 2, 24);
    int frames = demo.damaged()[0].length;
    long[][] words = new long[2][frames];
    double scale = 1 << 23;
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < frames; i++) {
        words[c][i] =
            Math.max(-(1 << 23), Math.min((1 << 23) - 1, Math.round(demo.damaged()[c][i] * scale)));
      }
    }
    String name = NAME + ".wav";
    byte[] bext =
        BroadcastExtension.withHistoryLine(
            null,
            CodingHistory.line(format, "invented transfer; no turntable was harmed"),
            new BroadcastExtension.Origin(
                DemoScenario.line(), null, LocalDateTime.ofInstant(now, ZoneOffset.UTC)));
    // a chunk no program knows, to show that it comes back too
    byte[] note =
        ("Shelf mark " + DemoScenario.MATRIX + "; sleeve lost; washed once.")
            .getBytes(StandardCharsets.US_ASCII);
    try (OutputSet outputs = OutputSet.open(folder, List.of(name), false)) {
      try (WavWriter writer =
          WavWriter.create(
              outputs.temporary(name),
              format,
              frames,
              List.of(
                  WavChunk.of(BroadcastExtension.CHUNK_ID, bext),
                  WavChunk.samples(),
                  WavChunk.of("shlf", note)),
              null)) {
        writer.write(words, 0, frames);
      }
      outputs.commit();
    }
    return folder.resolve(name);
  }

  /** Energy of the clean music over energy of what differs from it, where there is music. */
  private static double musicSnr(DemoSide demo, SideReader side) throws IOException {
    int from = (int) demo.truth().musicStart();
    int count = (int) (demo.truth().musicEnd() - from);
    long[][] words = new long[2][count];
    side.readWords(from, count, words, 0);
    double signal = 0;
    double other = 0;
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < count; i++) {
        double clean = demo.clean()[c][from + i];
        double d = words[c][i] / (double) (1 << 23) - clean;
        signal += clean * clean;
        other += d * d;
      }
    }
    return Decibels.ofPower(signal / other);
  }
}
