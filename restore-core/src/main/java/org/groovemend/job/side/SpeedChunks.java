package org.groovemend.job.side;

import java.io.IOException;
import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.audio.file.CodingHistory;

/**
 * The chunks of a copy whose time was changed: {@code bext} with a line more in its history and its
 * time reference at the new rate, and texts. Positions in frames, as of cue points, hold no longer
 * and are left out.
 *
 * @param chunks for the writer
 * @param leftOut names of those of the original that are not among them
 */
public record SpeedChunks(List<WavChunk> chunks, List<String> leftOut) {
  private static final Set<String> MADE_ANEW = Set.of("fmt ", "fact", "ds64", "PEAK");
  private static final Set<String> TEXTS = Set.of("LIST", "iXML", "axml", "id3 ", "ID3 ");
  private static final long LARGEST_TEXT = 16 << 20;

  /** Of a copy whose description says no more than whose it is. */
  public static SpeedChunks of(
      SideReader side, AudioFormat format, String what, String toolVersion, Instant now)
      throws IOException {
    return of(side, format, "Copy of " + side.path().getFileName(), what, toolVersion, now);
  }

  /**
   * @param description of a copy that inherits none
   * @param what was done, for the coding history
   */
  public static SpeedChunks of(
      SideReader side,
      AudioFormat format,
      String description,
      String what,
      String toolVersion,
      Instant now)
      throws IOException {
    byte[] extension = null;
    List<WavChunk> texts = new ArrayList<>();
    List<String> leftOut = new ArrayList<>();
    for (WavChunk chunk : side.wavChunks()) {
      if (chunk.isSamples() || MADE_ANEW.contains(chunk.id())) {
        continue;
      }
      if (chunk.id().equals(BroadcastExtension.CHUNK_ID)
          && extension == null
          && chunk.size() <= BroadcastCopy.LARGEST_BEXT) {
        extension = content(side, chunk);
      } else if (TEXTS.contains(chunk.id()) && text(side, chunk)) {
        texts.add(WavChunk.of(chunk.id(), content(side, chunk)));
      } else {
        leftOut.add(chunk.id());
      }
    }
    if (extension != null) {
      long then = BroadcastExtension.parse(extension).timeReference();
      extension =
          BroadcastExtension.withTimeReference(
              BroadcastExtension.withoutLoudness(extension),
              atRate(then, side.format().sampleRateHz(), format.sampleRateHz()));
    }
    String history = extension == null ? "" : BroadcastExtension.parse(extension).codingHistory();
    String line =
        CodingHistory.line(
            format,
            CodingHistory.mode(history, format),
            BroadcastCopy.asciiText("groovemend " + toolVersion + "; " + what));
    BroadcastExtension.Origin ifNone =
        new BroadcastExtension.Origin(
            BroadcastCopy.asciiText(description),
            null,
            LocalDateTime.ofInstant(now, ZoneOffset.UTC));
    List<WavChunk> chunks = new ArrayList<>();
    chunks.add(
        WavChunk.of(
            BroadcastExtension.CHUNK_ID,
            BroadcastExtension.withHistoryLine(extension, line, ifNone)));
    chunks.addAll(texts);
    chunks.add(WavChunk.samples());
    return new SpeedChunks(chunks, leftOut);
  }

  private static byte[] content(SideReader side, WavChunk chunk) throws IOException {
    return chunk.content() != null ? chunk.content() : BroadcastCopy.read(side.path(), chunk);
  }

  /** A LIST may hold labels of cue points as well as texts about the whole. */
  private static boolean text(SideReader side, WavChunk chunk) throws IOException {
    if (chunk.size() > LARGEST_TEXT) {
      return false;
    }
    if (!chunk.id().equals("LIST")) {
      return true;
    }
    byte[] content = content(side, chunk);
    return content.length >= 4
        && content[0] == 'I'
        && content[1] == 'N'
        && content[2] == 'F'
        && content[3] == 'O';
  }

  private static long atRate(long frames, int from, int to) {
    return new BigInteger(Long.toUnsignedString(frames))
        .multiply(BigInteger.valueOf(to))
        .add(BigInteger.valueOf(from / 2))
        .divide(BigInteger.valueOf(from))
        .longValue();
  }
}
