package org.groovemend.audio.file;

import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Objects;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;

/**
 * Writes a WAV file from front to back: header, chunks, samples, chunks. The number of frames is
 * announced beforehand, so the header is never touched again and a file that broke off shows it.
 *
 * <p>Plain RIFF up to 4 GiB - 1, RF64 beyond; an original in RF64 or BW64 gives the same kind.
 * {@code ds64} is always written anew. Chunks keep their order and bytes; {@code fmt } of a WAV
 * original is carried over as it is. Not safe for use by several threads.
 */
public final class WavWriter implements Closeable {

  private static final int BUFFER_BYTES = 1 << 20;
  private static final int MIN_BUFFER_BYTES = 1 << 12;

  private final FileChannel channel;
  private final AudioFormat format;
  private final long frames;
  private final WavPlan plan;
  private final Path originalPath;
  private final byte[] buffer;
  private int buffered;
  private long written;
  private boolean closed;

  private WavWriter(
      FileChannel channel, AudioFormat format, long frames, WavPlan plan, Path originalPath) {
    this.channel = channel;
    this.format = format;
    this.frames = frames;
    this.plan = plan;
    this.originalPath = originalPath;
    long bytes = Math.min(BUFFER_BYTES, MIN_BUFFER_BYTES + plan.dataBytes());
    this.buffer = new byte[(int) bytes];
  }

  /**
   * Creates the file, which must not exist, and writes everything that stands before the samples.
   *
   * @param frames exactly as many as will be written, at least 0
   * @param chunks in file order, with one samples marker (none: the samples stand last); without a
   *     {@code fmt } chunk one is made and stands first, with {@code fact} for float
   * @param original where chunks without content of their own are copied from, still open or not;
   *     null if there are none
   * @throws IllegalArgumentException if the chunks cannot be what goes around these samples
   * @throws java.nio.file.FileAlreadyExistsException if the file exists
   */
  public static WavWriter create(
      Path file, AudioFormat format, long frames, List<WavChunk> chunks, SideReader original)
      throws IOException {
    if (frames < 0 || frames > Long.MAX_VALUE / 64) {
      throw new IllegalArgumentException("frames " + frames + " is out of range");
    }
    for (WavChunk chunk : chunks) {
      check(chunk, original);
    }
    checkFormat(format, chunks, original);
    WavKind kind = original instanceof WavSideReader wav ? wav.kind() : WavKind.RIFF;
    WavPlan plan = WavPlan.of(format, frames, chunks, kind);
    Path originalPath = original == null ? null : original.path();
    FileChannel channel =
        FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    boolean begun = false;
    try {
      WavWriter writer = new WavWriter(channel, format, frames, plan, originalPath);
      writer.put(plan.head());
      writer.put(plan.before());
      writer.put(plan.dataHeader());
      begun = true;
      return writer;
    } finally {
      if (!begun) {
        channel.close();
      }
    }
  }

  private static void check(WavChunk chunk, SideReader original) {
    if (chunk.id().length() != 4 || chunk.size() < 0) {
      throw new IllegalArgumentException("chunk '" + chunk.id() + "' has a wrong name or size");
    }
    boolean given = chunk.isSamples() || chunk.content() != null;
    if (given
        ? chunk.content() != null && chunk.content().length != chunk.size()
        : original == null) {
      throw new IllegalArgumentException("chunk '" + chunk.id() + "' has no content of its size");
    }
  }

  /**
   * A {@code fmt } chunk is made here or carried over, and then it must say what the samples are.
   */
  private static void checkFormat(AudioFormat format, List<WavChunk> chunks, SideReader original) {
    for (WavChunk chunk : chunks) {
      if (chunk.id().equals("fmt ")
          && (chunk.content() != null || !original.format().equals(format))) {
        throw new IllegalArgumentException(
            "a fmt chunk can only be that of the original and of samples like its own, not of "
                + format);
      }
    }
  }

  /**
   * Writes {@code count} frames from {@code words[channel][offset...]} on.
   *
   * @throws IllegalArgumentException if more frames come than were announced
   */
  public void write(long[][] words, int offset, int count) throws IOException {
    Objects.checkFromIndexSize(offset, count, words[0].length);
    if (closed) {
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
      WordBytes.encode(words, offset + done, n, format, false, buffer, buffered);
      buffered += n * frameBytes;
      done += n;
    }
    written += count;
  }

  /**
   * Writes what stands behind the samples and makes sure that the file is on the disk.
   *
   * @throws IOException if fewer frames were written than announced; the file is then not usable
   */
  @Override
  public void close() throws IOException {
    if (closed) {
      return;
    }
    closed = true;
    try (channel) {
      if (written != frames) {
        throw new IOException(
            "the file was announced with " + frames + " frames and got " + written);
      }
      if ((plan.dataBytes() & 1) != 0) {
        put(new byte[1]);
      }
      put(plan.after());
      flush();
      if (channel.position() != plan.totalBytes()) {
        throw new IOException(
            "the file became " + channel.position() + " bytes instead of " + plan.totalBytes());
      }
      channel.force(true);
    }
  }

  private void put(List<WavChunk> chunks) throws IOException {
    for (WavChunk chunk : chunks) {
      put(WavPlan.header(chunk.id(), chunk.size()));
      if (chunk.content() != null) {
        put(chunk.content());
      } else {
        copy(chunk);
      }
      if ((chunk.size() & 1) != 0) {
        put(new byte[1]);
      }
    }
  }

  private void copy(WavChunk chunk) throws IOException {
    flush();
    try (FileChannel in = FileChannel.open(originalPath, StandardOpenOption.READ)) {
      long done = 0;
      while (done < chunk.size()) {
        long n = in.transferTo(chunk.fileOffset() + done, chunk.size() - done, channel);
        if (n <= 0) {
          throw new EOFException(
              originalPath + ": ends within chunk '" + chunk.id() + "' while it was copied");
        }
        done += n;
      }
    }
  }

  private void put(byte[] bytes) throws IOException {
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

  private void flush() throws IOException {
    ByteBuffer bytes = ByteBuffer.wrap(buffer, 0, buffered);
    while (bytes.hasRemaining()) {
      channel.write(bytes);
    }
    buffered = 0;
  }
}
