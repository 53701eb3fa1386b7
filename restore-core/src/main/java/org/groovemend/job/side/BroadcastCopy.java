package org.groovemend.job.side;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.audio.file.CodingHistory;
import org.groovemend.ledger.LedgerNames;

/**
 * The chunks of the clean copy: those of the original, with one line more in the coding history of
 * {@code bext} (EBU R 98) and without its loudness values, which hold no longer.
 */
public final class BroadcastCopy {

  static final long LARGEST_BEXT = 16 << 20;

  private BroadcastCopy() {}

  /**
   * The chunks for a copy in the format of the side.
   *
   * @param joined whether a stage made one signal of two channels
   */
  public static List<WavChunk> chunks(
      SideReader side,
      List<String> stages,
      boolean joined,
      LedgerNames names,
      String toolVersion,
      Instant now)
      throws IOException {
    String text =
        "groovemend "
            + toolVersion
            + "; "
            + (stages.isEmpty() ? "nothing changed" : String.join(" ", stages))
            + "; ledger "
            + names.ledger();
    return chunks(side, text, joined, !stages.isEmpty(), origin(names, now));
  }

  /**
   * The chunks of a copy of which edits were taken back: those of the copy it was made of, with a
   * line of its own.
   *
   * @param copy the copy it was made of
   * @param what was done, in ASCII for people
   * @param joined whether the copy holds one signal twice
   */
  public static List<WavChunk> ofUndone(
      SideReader copy,
      String what,
      boolean joined,
      LedgerNames names,
      String toolVersion,
      Instant now)
      throws IOException {
    String text = "groovemend " + toolVersion + "; " + what + "; ledger " + names.ledger();
    return chunks(copy, text, joined, true, origin(names, now));
  }

  private static BroadcastExtension.Origin origin(LedgerNames names, Instant now) {
    return new BroadcastExtension.Origin(
        asciiText("Restored copy; every change is in " + names.ledger()),
        null,
        LocalDateTime.ofInstant(now, ZoneOffset.UTC));
  }

  private static List<WavChunk> chunks(
      SideReader side,
      String text,
      boolean joined,
      boolean changed,
      BroadcastExtension.Origin ifNone)
      throws IOException {
    List<WavChunk> chunks = new ArrayList<>();
    boolean extended = false;
    for (WavChunk chunk : side.wavChunks()) {
      if (chunk.id().equals(BroadcastExtension.CHUNK_ID)
          && !extended
          && chunk.size() <= LARGEST_BEXT) {
        byte[] content = chunk.content() != null ? chunk.content() : read(side.path(), chunk);
        if (changed) {
          content = BroadcastExtension.withoutLoudness(content);
        }
        String line = line(side, joined, BroadcastExtension.parse(content).codingHistory(), text);
        chunks.add(
            WavChunk.of(
                BroadcastExtension.CHUNK_ID,
                BroadcastExtension.withHistoryLine(content, line, ifNone)));
        extended = true;
      } else {
        chunks.add(chunk);
      }
    }
    if (!extended) {
      int place = 0;
      while (place < chunks.size() && !chunks.get(place).isSamples()) {
        place++;
      }
      String line = line(side, joined, "", text);
      chunks.add(
          place,
          WavChunk.of(
              BroadcastExtension.CHUNK_ID, BroadcastExtension.withHistoryLine(null, line, ifNone)));
    }
    return chunks;
  }

  private static String line(SideReader side, boolean joined, String history, String text) {
    CodingHistory.Mode mode =
        joined && side.format().channels() == 2
            ? CodingHistory.Mode.DUAL_MONO
            : CodingHistory.mode(history, side.format());
    return CodingHistory.line(side.format(), mode, asciiText(text));
  }

  /** The content of a chunk of the original. */
  public static byte[] read(Path file, WavChunk chunk) throws IOException {
    ByteBuffer buffer = ByteBuffer.allocate((int) chunk.size());
    try (SeekableByteChannel in = Files.newByteChannel(file)) {
      in.position(chunk.fileOffset());
      while (buffer.hasRemaining() && in.read(buffer) >= 0) {
        // until the chunk is whole
      }
    }
    return buffer.array();
  }

  /** File names may hold anything; the history holds ASCII without commas. */
  public static String asciiText(String text) {
    StringBuilder out = new StringBuilder();
    text.codePoints()
        .forEach(c -> out.append(c == ',' ? ';' : c >= 0x20 && c <= 0x7e ? (char) c : '?'));
    return out.toString();
  }
}
