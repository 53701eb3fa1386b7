package org.groovemend.bands;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * Marks in a WAV file: a {@code cue } chunk and an associated data list with a label and a length
 * for each mark (Microsoft and IBM, Multimedia Programming Interface and Data Specifications 1.0,
 * 1991; from memory). Labels are UTF-8; that specification knows only code pages.
 */
public final class CueChunks {
  public static final String CUE = "cue ";
  public static final String LIST = "LIST";

  /** Our own word for the purpose of a length; the specification leaves it open. */
  private static final String PURPOSE = "band";

  private CueChunks() {}

  /**
   * A mark.
   *
   * @param frame of the file, 0 to 2^32 - 1: the chunk cannot hold more
   * @param frames length of what it marks
   * @param label any text without NUL
   */
  public record Mark(long frame, long frames, String label) {
    public Mark {
      if (frame < 0 || frame > 0xffffffffL || frames < 0) {
        throw new IllegalArgumentException("a cue chunk cannot hold frame " + frame);
      }
      label = label.replace('\0', ' ');
    }
  }

  /** Content of the {@code cue } chunk. */
  public static byte[] cue(List<Mark> marks) {
    ByteBuffer out = ByteBuffer.allocate(4 + 24 * marks.size()).order(ByteOrder.LITTLE_ENDIAN);
    out.putInt(marks.size());
    for (int i = 0; i < marks.size(); i++) {
      out.putInt(i + 1);
      out.putInt((int) marks.get(i).frame());
      out.put("data".getBytes(StandardCharsets.US_ASCII));
      out.putInt(0).putInt(0);
      out.putInt((int) marks.get(i).frame());
    }
    return out.array();
  }

  /** Content of the {@code LIST} chunk, type {@code adtl}. */
  public static byte[] labels(List<Mark> marks) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes("adtl".getBytes(StandardCharsets.US_ASCII));
    for (int i = 0; i < marks.size(); i++) {
      byte[] label = marks.get(i).label().getBytes(StandardCharsets.UTF_8);
      ByteBuffer text = ByteBuffer.allocate(4 + label.length + 1).order(ByteOrder.LITTLE_ENDIAN);
      text.putInt(i + 1).put(label);
      put(out, "labl", text.array());
    }
    for (int i = 0; i < marks.size(); i++) {
      ByteBuffer length = ByteBuffer.allocate(20).order(ByteOrder.LITTLE_ENDIAN);
      length.putInt(i + 1).putInt((int) Math.min(0xffffffffL, marks.get(i).frames()));
      length.put(PURPOSE.getBytes(StandardCharsets.US_ASCII)).putLong(0);
      put(out, "ltxt", length.array());
    }
    return out.toByteArray();
  }

  private static void put(ByteArrayOutputStream out, String id, byte[] content) {
    ByteBuffer head = ByteBuffer.allocate(8).order(ByteOrder.LITTLE_ENDIAN);
    head.put(id.getBytes(StandardCharsets.US_ASCII)).putInt(content.length);
    out.writeBytes(head.array());
    out.writeBytes(content);
    if (content.length % 2 != 0) {
      out.write(0);
    }
  }

  /** Marks of the bands of a plan, for a file that holds the whole side. */
  public static List<Mark> of(BandPlan plan) {
    return plan.pieces().stream()
        .filter(p -> p.kind() != BandPiece.Kind.RUN_IN)
        .map(p -> new Mark(p.firstFrame(), p.frames(), label(p)))
        .toList();
  }

  private static String label(BandPiece piece) {
    if (piece.kind() != BandPiece.Kind.BAND) {
      return piece.kind().word();
    }
    return piece.title().isEmpty() ? "Band " + piece.number() : piece.title();
  }
}
