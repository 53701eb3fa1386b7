package org.groovemend.audio.flac;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.util.Arrays;

/** A part of a file in memory that moves along. */
final class FileWindow {

  private final FileChannel file;
  private byte[] bytes;
  private long fileOffset;
  private int from;
  private int to;
  private boolean endOfFile;

  FileWindow(FileChannel file, int capacity) {
    this.file = file;
    this.bytes = new byte[capacity + BitReader.SLACK];
  }

  /** Moves to an offset of the file; what is in memory already is not read again. */
  void seek(long offset) {
    if (offset >= fileOffset && offset <= fileOffset + to) {
      from = (int) (offset - fileOffset);
    } else {
      fileOffset = offset;
      from = 0;
      to = 0;
      endOfFile = false;
    }
  }

  /**
   * Brings at least {@code count} bytes from the current offset on into memory, or all that the
   * file has.
   */
  void fill(int count) throws IOException {
    if (to - from >= count || endOfFile) {
      return;
    }
    byte[] target = bytes;
    if (count > bytes.length - BitReader.SLACK) {
      target = new byte[Math.max(count, 2 * bytes.length) + BitReader.SLACK];
    }
    System.arraycopy(bytes, from, target, 0, to - from);
    bytes = target;
    fileOffset += from;
    to -= from;
    from = 0;
    while (to < bytes.length - BitReader.SLACK) {
      ByteBuffer room = ByteBuffer.wrap(bytes, to, bytes.length - BitReader.SLACK - to);
      int n = file.read(room, fileOffset + to);
      if (n < 0) {
        endOfFile = true;
        return;
      }
      to += n;
    }
  }

  byte[] bytes() {
    return bytes;
  }

  /** Index in {@link #bytes()} of the current offset. */
  int from() {
    return from;
  }

  /** Index after the last byte in memory. */
  int to() {
    return to;
  }

  int available() {
    return to - from;
  }

  /** Whether memory holds the file up to its end. */
  boolean reachesEndOfFile() {
    return endOfFile;
  }

  /** Takes {@code count} bytes and moves on. */
  byte[] take(int count) throws IOException {
    fill(count);
    if (available() < count) {
      throw new EOFException();
    }
    byte[] taken = Arrays.copyOfRange(bytes, from, from + count);
    from += count;
    return taken;
  }

  long offset() {
    return fileOffset + from;
  }
}
