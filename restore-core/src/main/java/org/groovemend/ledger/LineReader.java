package org.groovemend.ledger;

import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;
import org.groovemend.ledger.LedgerDamagedException.Damage;

/** Cuts a stream into lines that end in LF, and keeps the current one. */
final class LineReader {

  private static final int BUFFER_BYTES = 1 << 14;
  private static final int FIRST_LINE_BYTES = 1 << 10;

  private final InputStream in;
  private final byte[] buffer = new byte[BUFFER_BYTES];
  private int at;
  private int limit;
  private byte[] line = new byte[FIRST_LINE_BYTES];
  private int length;
  private long number;

  LineReader(InputStream in) {
    this.in = in;
  }

  /** The line's bytes, without LF, valid up to {@link #length()} and until the next is read. */
  byte[] bytes() {
    return line;
  }

  int length() {
    return length;
  }

  /** Number of the current line, from 1. */
  long number() {
    return number;
  }

  /** Takes the next line; false at the end of the stream. */
  boolean next() throws IOException {
    length = 0;
    if (at == limit && !fill()) {
      return false;
    }
    number++;
    while (true) {
      int end = at;
      while (end < limit && buffer[end] != '\n') {
        end++;
      }
      append(at, end - at);
      if (end < limit) {
        at = end + 1;
        break;
      }
      if (!fill()) {
        throw new LedgerDamagedException(
            number, Damage.TRUNCATED, "the file ends inside this line; it was cut short");
      }
    }
    if (length > 0 && line[length - 1] == '\r') {
      throw new LedgerDamagedException(
          number, Damage.JSON, "it ends in CR LF; some program converted the line ends on the way");
    }
    return true;
  }

  /** True if nothing follows the current line. */
  boolean atEnd() throws IOException {
    return at == limit && !fill();
  }

  private boolean fill() throws IOException {
    at = 0;
    limit = Math.max(0, in.read(buffer, 0, buffer.length));
    return limit > 0;
  }

  private void append(int from, int count) throws IOException {
    if (count > LedgerJson.MAX_LINE_BYTES - length) {
      throw new LedgerDamagedException(
          number, Damage.JSON, "it is longer than " + LedgerJson.MAX_LINE_BYTES + " bytes");
    }
    if (length + count > line.length) {
      line = Arrays.copyOf(line, Math.max(length + count, 2 * line.length));
    }
    System.arraycopy(buffer, from, line, length, count);
    length += count;
  }

  /**
   * Exchanges current lines with another reader's store, so that a line can be kept while the next
   * is read.
   */
  byte[] swapBytes(byte[] other) {
    byte[] kept = line;
    line = other;
    length = 0;
    return kept;
  }
}
