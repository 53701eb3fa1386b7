package org.groovemend.audio.file;

import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Objects;
import org.groovemend.audio.AudioFormat;

/**
 * A new file of headers and samples, written from front to back, with the frames counted against
 * those announced. Not safe for use by several threads.
 */
final class SampleOutput implements Closeable {

  private static final int BUFFER_BYTES = 1 << 20;
  private static final int MIN_BUFFER_BYTES = 1 << 12;

  private final FileChannel channel;
  private final AudioFormat format;
  private final long frames;
  private final boolean bigEndian;
  private final byte[] buffer;
  private int buffered;
  private long written;

  /**
   * Creates the file.
   *
   * @param frames exactly as many as will be written, at least 0
   * @throws java.nio.file.FileAlreadyExistsException if the file exists
   */
  SampleOutput(Path file, AudioFormat format, long frames, boolean bigEndian) throws IOException {
    this.format = format;
    this.frames = frames;
    this.bigEndian = bigEndian;
    long bytes = Math.min(BUFFER_BYTES, MIN_BUFFER_BYTES + frames * format.bytesPerFrame());
    this.buffer = new byte[(int) bytes];
    this.channel = FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
  }

  /** Writes frames; see {@link WavWriter#write}. */
  void frames(long[][] words, int offset, int count) throws IOException {
    Objects.checkFromIndexSize(offset, count, words[0].length);
    if (!channel.isOpen()) {
      throw new IllegalStateException("the writer is closed");
    }
    if (count > frames - written) {
      throw new IllegalArgumentException(
          "frame " + (written + count) + " of a file announced with " + frames + " frames");
    }
    int frameBytes = format.bytesPerFrame();
    for (int done = 0; done < count; ) {
      if (buffer.length - buffered < frameBytes) {
        flush();
      }
      int n = Math.min(count - done, (buffer.length - buffered) / frameBytes);
      WordBytes.encode(words, offset + done, n, format, bigEndian, buffer, buffered);
      buffered += n * frameBytes;
      done += n;
    }
    written += count;
  }

  void requireAllFrames() throws IOException {
    if (written != frames) {
      throw new IOException("the file was announced with " + frames + " frames and got " + written);
    }
  }

  void put(byte[] bytes) throws IOException {
    for (int done = 0; done < bytes.length; ) {
      if (buffered == buffer.length) {
        flush();
      }
      int n = Math.min(bytes.length - done, buffer.length - buffered);
      System.arraycopy(bytes, done, buffer, buffered, n);
      buffered += n;
      done += n;
    }
  }

  /** Copies a stretch of another file. */
  void copy(Path from, long offset, long size, String what) throws IOException {
    flush();
    try (FileChannel in = FileChannel.open(from, StandardOpenOption.READ)) {
      for (long done = 0; done < size; ) {
        long n = in.transferTo(offset + done, size - done, channel);
        if (n <= 0) {
          throw new EOFException(from + ": ends within " + what + " while it was copied");
        }
        done += n;
      }
    }
  }

  /** Writes what is left and makes sure that a file of this length is on the disk. */
  void finish(long totalBytes) throws IOException {
    flush();
    if (channel.position() != totalBytes) {
      throw new IOException(
          "the file became " + channel.position() + " bytes instead of " + totalBytes);
    }
    channel.force(true);
  }

  private void flush() throws IOException {
    ByteBuffer bytes = ByteBuffer.wrap(buffer, 0, buffered);
    while (bytes.hasRemaining()) {
      channel.write(bytes);
    }
    buffered = 0;
  }

  boolean isOpen() {
    return channel.isOpen();
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}
