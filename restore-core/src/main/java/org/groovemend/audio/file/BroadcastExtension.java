package org.groovemend.audio.file;

import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * The Broadcast Extension of a WAV file, the content of its {@code bext} chunk, versions 0 to 2.
 *
 * <p>Texts are ASCII ended by a NUL or by the end of their field; bytes above 127, which the
 * standard does not allow, are read as Latin-1. Little-endian. A chunk shorter than the 602 bytes
 * of its fixed part is read as if filled up with zeros.
 *
 * @param timeReference frames since midnight of the first frame, unsigned
 * @param version 0, 1 or 2; others as found
 * @param umid 64 bytes, meant from version 1 on (SMPTE ST 330)
 * @param loudness LoudnessValue, LoudnessRange, MaxTruePeakLevel, MaxMomentaryLoudness,
 *     MaxShortTermLoudness times 100 as found, meant from version 2 on; 0x7fff = not given
 * @param codingHistory all of it as it stands, without trailing NULs
 * @see <a href="https://tech.ebu.ch/docs/tech/tech3285.pdf">EBU Tech 3285 v2, 2011</a>; offsets are
 *     checked against the reference table in {@code BroadcastExtensionReferenceTest}
 */
public record BroadcastExtension(
    String description,
    String originator,
    String originatorReference,
    String originationDate,
    String originationTime,
    long timeReference,
    int version,
    byte[] umid,
    int[] loudness,
    String codingHistory) {

  public static final String CHUNK_ID = "bext";

  /** Where the coding history begins, in every version. */
  static final int CODING_HISTORY = 602;

  private static final int DESCRIPTION = 0;
  private static final int ORIGINATOR = 256;
  private static final int ORIGINATOR_REFERENCE = 288;
  private static final int ORIGINATION_DATE = 320;
  private static final int ORIGINATION_TIME = 330;
  private static final int TIME_REFERENCE = 338;
  private static final int VERSION = 346;
  private static final int UMID = 348;
  private static final int LOUDNESS = 412;
  private static final int LOUDNESS_VALUES = 5;
  private static final int NOT_GIVEN = 0x7fff;

  /**
   * What a new extension says about the file it stands in.
   *
   * @param description at most 256 characters are kept; never a path
   * @param originator the one who made the file, at most 32 characters are kept; "groovemend" if
   *     null
   * @param created local time of making; null leaves date and time empty
   */
  public record Origin(String description, String originator, LocalDateTime created) {

    public static final String GROOVEMEND = "groovemend";

    public Origin {
      originator = originator == null ? GROOVEMEND : originator;
    }
  }

  public static BroadcastExtension parse(byte[] content) {
    byte[] c = atLeastFixedPart(content);
    int[] loudness = new int[LOUDNESS_VALUES];
    for (int i = 0; i < LOUDNESS_VALUES; i++) {
      loudness[i] = (short) Bytes.u16(c, LOUDNESS + 2 * i);
    }
    return new BroadcastExtension(
        text(c, DESCRIPTION, ORIGINATOR),
        text(c, ORIGINATOR, ORIGINATOR_REFERENCE),
        text(c, ORIGINATOR_REFERENCE, ORIGINATION_DATE),
        text(c, ORIGINATION_DATE, ORIGINATION_TIME),
        text(c, ORIGINATION_TIME, TIME_REFERENCE),
        Bytes.i64(c, TIME_REFERENCE),
        Bytes.u16(c, VERSION),
        Arrays.copyOfRange(c, UMID, LOUDNESS),
        loudness,
        Bytes.ascii(c, CODING_HISTORY, historyEnd(c) - CODING_HISTORY));
  }

  /** The lines of the coding history without their ends. */
  public List<String> codingHistoryLines() {
    return codingHistory.lines().toList();
  }

  /**
   * Adds a line to the coding history, or makes a new extension of version 1 that holds it. What
   * stands before the history and the lines already there keep their bytes; NULs behind the last
   * line are dropped, an unfinished last line is ended.
   *
   * @param contentOrNull the content of the original's {@code bext} chunk; not modified
   * @param line one line with its CR LF, as {@link CodingHistory#line} makes it
   * @param ifNone what a new extension says
   */
  public static byte[] withHistoryLine(byte[] contentOrNull, String line, Origin ifNone) {
    if (!line.endsWith(CodingHistory.LINE_END) || line.lines().count() != 1) {
      throw new IllegalArgumentException("a coding history line is one line ended by CR LF");
    }
    byte[] content = contentOrNull == null ? create(ifNone) : atLeastFixedPart(contentOrNull);
    int end = historyEnd(content);
    String between = "";
    if (end > CODING_HISTORY && content[end - 1] != '\n') {
      between = content[end - 1] == '\r' ? "\n" : CodingHistory.LINE_END;
    }
    byte[] added = (between + line).getBytes(StandardCharsets.US_ASCII);
    byte[] out = Arrays.copyOf(content, end + added.length);
    System.arraycopy(added, 0, out, end, added.length);
    return out;
  }

  /**
   * The content with another time reference; all else keeps its bytes.
   *
   * @param content of a {@code bext} chunk; not modified
   * @param frames since midnight
   */
  public static byte[] withTimeReference(byte[] content, long frames) {
    byte[] out = atLeastFixedPart(content).clone();
    Bytes.put(out, TIME_REFERENCE, frames, 8);
    return out;
  }

  /**
   * The content with other loudness values, as version 2 at least; all else keeps its bytes.
   *
   * @param content of a {@code bext} chunk; not modified
   * @param integratedLufs and the others: {@code LoudnessValue}, {@code LoudnessRange}, {@code
   *     MaxTruePeakLevel}, {@code MaxMomentaryLoudness}, {@code MaxShortTermLoudness}; what is not
   *     a number within -99.99 to 99.99 is written as not given
   */
  public static byte[] withLoudness(
      byte[] content,
      double integratedLufs,
      double rangeLu,
      double truePeakDbtp,
      double mostMomentaryLufs,
      double mostShortTermLufs) {
    byte[] out = atLeastFixedPart(content).clone();
    double[] values = {integratedLufs, rangeLu, truePeakDbtp, mostMomentaryLufs, mostShortTermLufs};
    for (int i = 0; i < LOUDNESS_VALUES; i++) {
      boolean given = Math.abs(values[i]) < 100;
      Bytes.put(out, LOUDNESS + 2 * i, given ? Math.round(100 * values[i]) : NOT_GIVEN, 2);
    }
    Bytes.put(out, VERSION, Math.max(2, Bytes.u16(out, VERSION)), 2);
    return out;
  }

  /**
   * The content for a copy that sounds different: loudness values, where there are any, are no
   * longer given.
   *
   * @param content of a {@code bext} chunk; not modified
   */
  public static byte[] withoutLoudness(byte[] content) {
    double no = Double.NaN;
    return parse(content).version() < 2 ? content : withLoudness(content, no, no, no, no, no);
  }

  private static byte[] create(Origin origin) {
    byte[] out = new byte[CODING_HISTORY];
    putText(out, DESCRIPTION, ORIGINATOR, origin.description());
    putText(out, ORIGINATOR, ORIGINATOR_REFERENCE, origin.originator());
    if (origin.created() != null) {
      putText(out, ORIGINATION_DATE, ORIGINATION_TIME, format(origin.created(), "yyyy-MM-dd"));
      putText(out, ORIGINATION_TIME, TIME_REFERENCE, format(origin.created(), "HH:mm:ss"));
    }
    Bytes.put(out, VERSION, 1, 2);
    return out;
  }

  private static String format(LocalDateTime time, String pattern) {
    return DateTimeFormatter.ofPattern(pattern, Locale.ROOT).format(time);
  }

  private static byte[] atLeastFixedPart(byte[] content) {
    return content.length < CODING_HISTORY ? Arrays.copyOf(content, CODING_HISTORY) : content;
  }

  private static int historyEnd(byte[] content) {
    int end = content.length;
    while (end > CODING_HISTORY && content[end - 1] == 0) {
      end--;
    }
    return end;
  }

  private static String text(byte[] content, int from, int to) {
    int end = from;
    while (end < to && content[end] != 0) {
      end++;
    }
    return Bytes.ascii(content, from, end - from);
  }

  /** Characters outside ASCII become question marks. */
  private static void putText(byte[] out, int from, int to, String text) {
    byte[] ascii = text.getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(ascii, 0, out, from, Math.min(ascii.length, to - from));
  }
}
