package org.groovemend.audio.flac;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;

/** Whole files in and out, for tests. */
final class FlacTestFiles {

  private FlacTestFiles() {}

  /** A side in memory. */
  record Memory(AudioFormat format, long[][] words) implements WordSource {
    @Override
    public long frames() {
      return words[0].length;
    }

    @Override
    public void readWords(long firstFrame, int count, long[][] into, int offset) {
      for (int c = 0; c < format.channels(); c++) {
        System.arraycopy(words[c], (int) firstFrame, into[c], offset, count);
      }
    }
  }

  static void write(Path file, AudioFormat format, long[][] words) throws IOException {
    try (FlacWriter writer = new FlacWriter(file, format, words[0].length, null, 1)) {
      writer.write(words, 0, words[0].length);
    }
  }

  /** Overwrites in place, which file systems do many times faster than writing anew. */
  static void store(Path file, byte[] bytes) throws IOException {
    try (FileChannel channel =
        FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
      channel.write(ByteBuffer.wrap(bytes), 0);
      channel.truncate(bytes.length);
    }
  }

  /** All words in order, in pieces of an odd length. */
  static long[][] read(FlacSideReader side) throws IOException {
    if (side.frames() > 10_000_000) {
      // a header that says so: the end must not be there
      side.readWords(side.frames() - 1, 1, new long[side.format().channels()][1], 0);
      throw new AssertionError("a test file with " + side.frames() + " frames");
    }
    int frames = (int) side.frames();
    long[][] words = new long[side.format().channels()][frames];
    for (int at = 0; at < frames; at += 1021) {
      side.readWords(at, Math.min(1021, frames - at), words, at);
    }
    return words;
  }

  static long[][] read(Path file) throws IOException {
    try (FlacSideReader side = FlacSideReader.open(file)) {
      return read(side);
    }
  }

  /** Interleaved words, little end first: what flac and ffmpeg call raw. */
  static byte[] raw(long[][] words, int bits) {
    int width = (bits + 7) / 8;
    byte[] bytes = new byte[words.length * words[0].length * width];
    int at = 0;
    for (int i = 0; i < words[0].length; i++) {
      for (long[] channel : words) {
        Words.putLittleEndian(channel[i], bytes, at, width);
        at += width;
      }
    }
    return bytes;
  }

  static List<LayoutPiece> layout(Path file) throws IOException {
    List<LayoutPiece> pieces = new ArrayList<>();
    try (FlacSideReader side = FlacSideReader.open(file)) {
      side.describeLayout(pieces::add);
    }
    return pieces;
  }

  static byte[] rebuild(List<LayoutPiece> pieces, WordSource samples) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (LayoutPiece piece : pieces) {
      if (piece instanceof LayoutPiece.Bytes bytes) {
        assertThat(bytes.content()).hasSizeLessThanOrEqualTo(LayoutPiece.MAX_BYTES);
        out.write(bytes.content());
      } else if (piece instanceof LayoutPiece.FlacFrames f) {
        FlacFrameRebuilder.rebuild(f.recipe(), samples, f.firstFrame(), f.frames(), out);
      }
    }
    return out.toByteArray();
  }

  /** Asserts that a file's layout and the samples alone give the file back. */
  static void assertComesBack(Path file, AudioFormat format, long[][] words) throws IOException {
    assertThat(rebuild(layout(file), new Memory(format, words)))
        .isEqualTo(Files.readAllBytes(file));
  }

  static int recipeBytes(List<LayoutPiece> pieces) {
    int sum = 0;
    for (LayoutPiece piece : pieces) {
      sum += piece instanceof LayoutPiece.FlacFrames f ? f.recipe().length : 0;
    }
    return sum;
  }
}
