package org.groovemend.job.deliver;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.bands.BandPlan;
import org.groovemend.chain.Progress;
import org.groovemend.job.bands.BandJob;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreOutcome;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.job.side.HashUnderWay;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.speed.SpeedRecord;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.ledger.Sha256;
import org.groovemend.playback.CurveParameters;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;

/** Gets a side ready for its copies: restores it, or takes over a restoration made before. */
final class DeliverySidePreparation {

  private static final int BUFFER_BYTES = 1 << 18;
  private static final int BLOCK_FRAMES = 1 << 16;

  /** A ledger holds what follows from the settings, too. */
  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .enable(MapperFeature.ACCEPT_CASE_INSENSITIVE_ENUMS)
          .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
          .build();

  private final DeliverRequest request;
  private final Path folder;
  private final Crew crew;
  private final Progress progress;

  DeliverySidePreparation(DeliverRequest request, Path folder, Crew crew, Progress progress) {
    this.request = request;
    this.folder = folder;
    this.crew = crew;
    this.progress = progress;
  }

  /**
   * @param restored true if a copy is made from the clean copy
   */
  DeliverySide prepare(Recipe.Side side, boolean restored) throws IOException {
    try (HashUnderWay hash = new HashUnderWay(side.transfer(), crew)) {
      Ledger ledger = null;
      List<String> remarks = new ArrayList<>();
      if (side.ledger() != null) {
        ledger = Ledger.open(side.ledger());
        requireOf(side, ledger, hash.digits());
        if (restored) {
          takeOver(ledger);
        }
      } else if (restored) {
        RestoreOutcome outcome =
            Restore.run(
                new RestoreRequest(
                    side.transfer(),
                    folder,
                    side.treatment(),
                    side.leadIn(),
                    false,
                    request.toolVersion(),
                    request.now()),
                crew,
                progress);
        remarks.addAll(outcome.remarks());
        ledger = Ledger.open(outcome.ledgerFile());
        requireOf(side, ledger, hash.digits());
      }
      FileFacts clean = restored ? ledger.totals().restored() : null;
      return new DeliverySide(
          side,
          LedgerNames.of(side.transfer(), Long.SIZE).name(),
          ledger == null ? facts(side.transfer(), hash) : ledger.header().original(),
          restored ? identity(folder.resolve(ledger.path().getFileName())) : null,
          restored ? ledger.seal() : null,
          restored ? new SpeedRecord.Identity(clean.name(), clean.bytes(), clean.sha256()) : null,
          restored ? folder.resolve(clean.name()) : null,
          ledger == null
              ? List.of()
              : ledger.header().stages().stream().map(AppliedStage::name).toList(),
          curve(side, ledger),
          bands(side, restored ? folder.resolve(clean.name()) : side.transfer(), remarks),
          remarks);
    }
  }

  /** The clean copy tells the bands better; its frames are those of the transfer. */
  private List<CopyBand> bands(Recipe.Side side, Path sound, List<String> remarks)
      throws IOException {
    if (side.bands() == null) {
      return List.of();
    }
    BandPlan plan = BandJob.plan(BandJob.survey(sound, progress), side.bands());
    remarks.addAll(plan.doubts());
    List<CopyBand> bands = CopyBand.of(plan);
    if (bands.isEmpty()) {
      throw new RequestRefusedException(
          side.transfer() + ": no band was found; nothing was written");
    }
    return bands;
  }

  /** Of a transfer that no ledger knows. */
  private FileFacts facts(Path transfer, HashUnderWay hash) throws IOException {
    try (SideReader reader = SideFiles.open(transfer)) {
      AudioFormat format = reader.format();
      SampleDigest digest = new SampleDigest(format);
      long[][] words = new long[format.channels()][BLOCK_FRAMES];
      for (long at = 0; at < reader.frames(); at += BLOCK_FRAMES) {
        int count = (int) Math.min(BLOCK_FRAMES, reader.frames() - at);
        reader.readWords(at, count, words, 0);
        digest.update(words, 0, count);
        progress.at("reading", at + count, reader.frames());
      }
      return new FileFacts(
          FilePath.name(transfer),
          Files.size(transfer),
          hash.digits(),
          digest.hex(),
          reader.frames(),
          format,
          reader.container());
    }
  }

  private static SpeedRecord.Identity identity(Path file) throws IOException {
    return new SpeedRecord.Identity(FilePath.name(file), Files.size(file), Sha256.of(file));
  }

  private static void requireOf(Recipe.Side side, Ledger ledger, String sha256) {
    FileFacts original = ledger.header().original();
    if (!original.sha256().equals(sha256)) {
      throw new RequestRefusedException(
          side.ledger() == null
              ? side.transfer() + " was changed while it was read; nothing was written"
              : side.ledger()
                  + " is the ledger of another file: its original "
                  + original.name()
                  + " has the SHA-256 "
                  + original.sha256()
                  + ", but "
                  + side.transfer()
                  + " has "
                  + sha256);
    }
  }

  /** Copies ledger, clean copy and what was removed, and proves each copy by its digest. */
  private void takeOver(Ledger ledger) throws IOException {
    LedgerFiles files = LedgerFiles.beside(ledger);
    copy(ledger.path(), FilePath.name(ledger.path()), Sha256.of(ledger.path()));
    take(files.restored(), ledger.totals().restored(), ledger);
    if (ledger.totals().removed() != null) {
      take(files.removed(), ledger.totals().removed(), ledger);
    }
  }

  private void take(Path file, FileFacts facts, Ledger ledger) throws IOException {
    if (file == null) {
      throw new RequestRefusedException(
          facts.name() + " does not lie beside its ledger " + ledger.path() + "; put it there");
    }
    copy(file, facts.name(), facts.sha256());
  }

  /**
   * Copies a file byte for byte, digesting what is read, and reads the copy again.
   *
   * @param sha256 that it must have
   */
  void copy(Path from, String name, String sha256) throws IOException {
    Path to = folder.resolve(name);
    Sha256 read = new Sha256();
    byte[] buffer = new byte[BUFFER_BYTES];
    long size = Files.size(from);
    long done = 0;
    try (InputStream in = Files.newInputStream(from);
        OutputStream out = Files.newOutputStream(to, StandardOpenOption.CREATE_NEW)) {
      for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
        read.update(buffer, 0, n);
        out.write(buffer, 0, n);
        done += n;
        progress.at("copying", done, size);
      }
    }
    if (!read.hex().equals(sha256)) {
      throw new RequestRefusedException(
          from
              + " is not the file that its SHA-256 stands for, "
              + sha256
              + "; nothing was written");
    }
    if (!Sha256.of(to).equals(sha256)) {
      throw new IOException(
          name + " reads back otherwise than it was written; nothing is left. Try another disk.");
    }
  }

  /** The known curve: of the treatment, or of the ledger if that curve was applied. */
  private static CurveParameters curve(Recipe.Side side, Ledger ledger) {
    if (side.ledger() == null) {
      return side.treatment().has(StageId.CURVE) ? side.treatment().curve() : null;
    }
    boolean applied =
        ledger.header().stages().stream().anyMatch(s -> s.name().equals(StageId.CURVE.key()));
    return applied && ledger.header().treatment().get(StageId.CURVE.key()) instanceof Map<?, ?> map
        ? MAPPER.convertValue(map.get("settings"), CurveParameters.class)
        : null;
  }
}
