package org.groovemend.audio.file;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
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

  private final SampleOutput out;
  private final WavPlan plan;
  private final Path originalPath;

  private WavWriter(SampleOutput out, WavPlan plan, Path originalPath) {
    this.out = out;
    this.plan = plan;
    this.originalPath = originalPath;
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
    SampleOutput out = new SampleOutput(file, format, frames, false);
    boolean begun = false;
    try {
      WavWriter writer = new WavWriter(out, plan, originalPath);
      out.put(plan.head());
      writer.put(plan.before());
      out.put(plan.dataHeader());
      begun = true;
      return writer;
    } finally {
      if (!begun) {
        out.close();
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
    out.frames(words, offset, count);
  }

  /**
   * Writes what stands behind the samples and makes sure that the file is on the disk.
   *
   * @throws IOException if fewer frames were written than announced; the file is then not usable
   */
  @Override
  public void close() throws IOException {
    if (!out.isOpen()) {
      return;
    }
    try (out) {
      out.requireAllFrames();
      if ((plan.dataBytes() & 1) != 0) {
        out.put(new byte[1]);
      }
      put(plan.after());
      out.finish(plan.totalBytes());
    }
  }

  private void put(List<WavChunk> chunks) throws IOException {
    for (WavChunk chunk : chunks) {
      out.put(WavPlan.header(chunk.id(), chunk.size()));
      if (chunk.content() != null) {
        out.put(chunk.content());
      } else {
        out.copy(originalPath, chunk.fileOffset(), chunk.size(), "chunk '" + chunk.id() + "'");
      }
      if ((chunk.size() & 1) != 0) {
        out.put(new byte[1]);
      }
    }
  }
}
