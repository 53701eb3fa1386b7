package org.groovemend.job.bands;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.audio.flac.FlacWriter;
import org.groovemend.bands.BandPiece;
import org.groovemend.bands.BandPlan;
import org.groovemend.bands.CueChunks;
import org.groovemend.chain.Progress;
import org.groovemend.chain.WordSink;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.side.BroadcastCopy;
import org.groovemend.job.side.HashUnderWay;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.SpeedChunks;
import org.groovemend.ledger.Sha256;
import org.groovemend.stage.Crew;

/**
 * Cuts a side into the pieces of a plan, or marks them in a copy of the side. Words are copied, not
 * computed: the pieces one after the other are the side, unless fades are asked for.
 */
public final class BandCutting {
  private static final int VERSION = 1;
  private static final int BLOCK = 1 << 15;

  private BandCutting() {}

  /**
   * What is asked.
   *
   * @param side a transfer or its clean copy
   * @param plan of it
   * @param folder where pieces and record are written
   * @param flac whether the pieces are FLAC; else WAV
   * @param fade to the noise of the groove, or null for pieces word for word
   * @param replace whether files may be replaced
   * @param toolVersion goes into the record
   * @param now goes into the record
   */
  public record Request(
      Path side,
      BandPlan plan,
      Path folder,
      boolean flac,
      BandFade fade,
      boolean replace,
      String toolVersion,
      Instant now) {}

  /**
   * What was written.
   *
   * @param pieces in order of the plan
   * @param record JSON that tells frames, checksums and reasons; can be read as a list of bands
   * @param leftOut chunks of the side that are not in the pieces
   */
  public record Outcome(List<Path> pieces, Path record, List<String> leftOut) {
    public Outcome {
      pieces = List.copyOf(pieces);
      leftOut = List.copyOf(leftOut);
    }
  }

  /**
   * All files appear, or none.
   *
   * @throws RequestRefusedException if the pieces cannot be as they are asked
   * @throws org.groovemend.audio.InputRejectedException if the side cannot be taken
   * @throws org.groovemend.delivery.OutputExistsException if one is there already
   */
  public static Outcome run(Request request, Crew crew, Progress progress) throws IOException {
    BandPlan plan = request.plan();
    List<String> names = PieceNames.of(request.side(), plan, request.flac());
    String record = PieceNames.stem(request.side()) + ".bands.json";
    List<String> all = new ArrayList<>(names);
    all.add(record);
    try (SideReader side = SideFiles.open(request.side())) {
      requireOwn(side, plan);
      AudioFormat format = side.format();
      if (request.flac() && format.coding() != SampleCoding.PCM) {
        throw new RequestRefusedException(
            "FLAC cannot hold float samples; ask for pieces as WAV (--as wav)");
      }
      if (request.fade() != null) {
        request.fade().requireRoom(plan);
      }
      try (OutputSet outputs =
              OutputSet.open(request.folder(), all, request.replace(), List.of(request.side()));
          HashUnderWay hash = new HashUnderWay(request.side(), crew)) {
        List<Map<String, Object>> pieces = BandListFile.asList(plan);
        List<String> leftOut = List.of();
        for (int i = 0; i < names.size(); i++) {
          BandPiece piece = plan.pieces().get(i);
          Path file = outputs.temporary(names.get(i));
          if (request.flac()) {
            try (FlacWriter writer =
                new FlacWriter(file, format, piece.frames(), crew.executor(), crew.hands())) {
              copy(side, request, piece, writer::write, progress);
            }
          } else {
            SpeedChunks chunks = chunks(side, piece, request, record);
            leftOut = chunks.leftOut();
            try (WavWriter writer =
                WavWriter.create(file, format, piece.frames(), chunks.chunks(), null)) {
              copy(side, request, piece, writer::write, progress);
            }
          }
          pieces.get(i).put("file", names.get(i));
          pieces.get(i).put("bytes", Files.size(file));
          pieces.get(i).put("sha256", Sha256.of(file));
        }
        try (OutputStream stream = outputs.create(record)) {
          stream.write(
              record(request, side, pieces, hash.digits()).getBytes(StandardCharsets.UTF_8));
        }
        outputs.commit();
        return new Outcome(
            names.stream().map(request.folder()::resolve).toList(),
            request.folder().resolve(record),
            leftOut);
      }
    }
  }

  private static void requireOwn(SideReader side, BandPlan plan) {
    if (side.frames() != plan.frames() || side.format().sampleRateHz() != plan.sampleRateHz()) {
      throw new RequestRefusedException(
          side.path() + " has another length or rate than the side of the plan");
    }
  }

  private static void copy(
      SideReader side, Request request, BandPiece piece, WordSink sink, Progress progress)
      throws IOException {
    long[][] words = new long[side.format().channels()][BLOCK];
    BandFade.Running fade =
        request.fade() == null || piece.kind() != BandPiece.Kind.BAND
            ? null
            : request.fade().over(side, piece);
    for (long at = piece.firstFrame(); at < piece.endFrame(); at += BLOCK) {
      int n = (int) Math.min(BLOCK, piece.endFrame() - at);
      side.readWords(at, n, words, 0);
      if (fade != null) {
        fade.apply(at, n, words);
      }
      sink.write(words, 0, n);
      progress.at("cutting", at + n, side.frames());
    }
  }

  private static SpeedChunks chunks(
      SideReader side, BandPiece piece, Request request, String record) throws IOException {
    SpeedChunks all =
        SpeedChunks.of(
            side,
            side.format(),
            "frames "
                + piece.firstFrame()
                + " to "
                + piece.endFrame()
                + " of the side; "
                + BroadcastCopy.asciiText(record),
            request.toolVersion(),
            request.now());
    List<WavChunk> chunks = new ArrayList<>();
    for (WavChunk chunk : all.chunks()) {
      if (chunk.id().equals(BroadcastExtension.CHUNK_ID)) {
        long begins = BroadcastExtension.parse(chunk.content()).timeReference();
        chunks.add(
            WavChunk.of(
                chunk.id(),
                BroadcastExtension.withTimeReference(
                    chunk.content(), begins + piece.firstFrame())));
      } else {
        chunks.add(chunk);
      }
    }
    return new SpeedChunks(chunks, all.leftOut());
  }

  private static String record(
      Request request, SideReader side, List<Map<String, Object>> pieces, String sha256)
      throws IOException {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("bandRecord", VERSION);
    all.put("tool", "groovemend " + request.toolVersion());
    all.put("made", request.now().toString());
    Map<String, Object> one = new LinkedHashMap<>();
    one.put("name", FilePath.name(request.side()));
    one.put("bytes", Files.size(request.side()));
    one.put("sha256", sha256);
    one.put("frames", side.frames());
    one.put("sampleRateHz", side.format().sampleRateHz());
    one.put("channels", side.format().channels());
    one.put("coding", side.format().coding().name());
    one.put("containerBits", side.format().containerBits());
    all.put("side", one);
    all.put(
        "rule",
        request.fade() == null
            ? "the words of the files, one after the other, are those of the side"
            : "all words but those of the fades are those of the side");
    all.put("fade", request.fade() == null ? null : request.fade().asMap());
    all.put("doubts", request.plan().doubts());
    all.put("bands", pieces);
    return BandListFile.json(all);
  }

  /**
   * Writes a WAV copy of the whole side with its bands marked; all other chunks of a WAV original
   * are kept as they are.
   *
   * @return chunks of the original that the marks took the place of
   */
  public static List<String> marked(
      Path source, BandPlan plan, Path out, boolean replace, Progress progress) throws IOException {
    Path file = out.toAbsolutePath();
    String name = FilePath.name(file);
    if (plan.frames() > 0xffffffffL) {
      throw new RequestRefusedException(
          "a cue chunk counts to 2^32 frames and the side is longer; ask for pieces or a list");
    }
    try (SideReader side = SideFiles.open(source)) {
      requireOwn(side, plan);
      List<CueChunks.Mark> marks = CueChunks.of(plan);
      List<WavChunk> chunks = new ArrayList<>();
      List<String> leftOut = new ArrayList<>();
      for (WavChunk chunk : side.wavChunks()) {
        if (chunk.id().equals(CueChunks.CUE) || labels(side, chunk)) {
          leftOut.add(chunk.id());
        } else {
          chunks.add(chunk);
        }
      }
      chunks.add(WavChunk.of(CueChunks.CUE, CueChunks.cue(marks)));
      chunks.add(WavChunk.of(CueChunks.LIST, CueChunks.labels(marks)));
      try (OutputSet outputs =
          OutputSet.open(FilePath.folder(file), List.of(name), replace, List.of(source))) {
        try (WavWriter writer =
            WavWriter.create(outputs.temporary(name), side.format(), side.frames(), chunks, side)) {
          long[][] words = new long[side.format().channels()][BLOCK];
          for (long at = 0; at < side.frames(); at += BLOCK) {
            int n = (int) Math.min(BLOCK, side.frames() - at);
            side.readWords(at, n, words, 0);
            writer.write(words, 0, n);
            progress.at("marking", at + n, side.frames());
          }
        }
        outputs.commit();
      }
      return leftOut;
    }
  }

  private static boolean labels(SideReader side, WavChunk chunk) throws IOException {
    if (!chunk.id().equals(CueChunks.LIST) || chunk.size() < 4) {
      return false;
    }
    byte[] head =
        chunk.content() != null
            ? chunk.content()
            : BroadcastCopy.read(side.path(), new WavChunk("LIST", chunk.fileOffset(), 4, null));
    return new String(head, 0, 4, StandardCharsets.US_ASCII).equals("adtl");
  }
}
