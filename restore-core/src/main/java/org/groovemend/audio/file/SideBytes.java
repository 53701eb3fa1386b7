package org.groovemend.audio.file;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.LayoutSink;

/** The bytes of a file by 64-bit position; its length is the one it had when opened. */
final class SideBytes {

  private final Path path;
  private final FileChannel channel;
  private final long size;

  SideBytes(Path path, FileChannel channel) throws IOException {
    this.path = path;
    this.channel = channel;
    this.size = channel.size();
  }

  Path path() {
    return path;
  }

  long size() {
    return size;
  }

  void close() throws IOException {
    channel.close();
  }

  /** Fills {@code into[offset, offset + count)} from a position on. */
  void read(long position, byte[] into, int offset, int count) throws IOException {
    ByteBuffer buffer = ByteBuffer.wrap(into, offset, count);
    while (buffer.hasRemaining()) {
      if (channel.read(buffer, position + buffer.position() - offset) < 0) {
        throw reject(
            "at byte " + (position + buffer.position() - offset),
            "the file became shorter while it was read",
            "see that no other program writes to it and try again");
      }
    }
  }

  byte[] bytes(long position, int count) throws IOException {
    byte[] bytes = new byte[count];
    read(position, bytes, 0, count);
    return bytes;
  }

  /** Tells the bytes of {@code [from, to)} in pieces of bounded size. */
  void describe(long from, long to, LayoutSink sink) throws IOException {
    for (long at = from; at < to; at += LayoutPiece.MAX_BYTES) {
      sink.accept(new LayoutPiece.Bytes(bytes(at, (int) Math.min(LayoutPiece.MAX_BYTES, to - at))));
    }
  }

  InputRejectedException reject(String where, String what, String whatToDo) {
    return new InputRejectedException(path, where, what, whatToDo);
  }
}
