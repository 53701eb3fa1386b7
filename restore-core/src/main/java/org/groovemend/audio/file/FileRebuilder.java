package org.groovemend.audio.file;

import java.io.IOException;
import java.io.OutputStream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.LayoutSink;
import org.groovemend.audio.WordSource;

/**
 * Writes a file again from its pieces, in file order, and its samples. Given all pieces of {@code
 * SideReader.describeLayout} and the same samples, the output is the file, byte for byte.
 */
public final class FileRebuilder implements LayoutSink {

  private static final int BATCH_FRAMES = 1 << 14;

  private final WordSource samples;
  private final OutputStream out;
  private final int batchFrames;
  private final long[][] words;
  private final byte[] bytes;

  /**
   * @param samples the side as it was in the file
   * @param out takes whole runs of bytes, needs no buffer; stays open
   */
  public FileRebuilder(WordSource samples, OutputStream out) {
    this.samples = samples;
    this.out = out;
    this.batchFrames = (int) Math.min(BATCH_FRAMES, samples.frames());
    this.words = new long[samples.format().channels()][batchFrames];
    this.bytes = new byte[batchFrames * samples.format().bytesPerFrame()];
  }

  /**
   * @throws IOException if a piece asks for frames the side has not, or reading or writing fails
   */
  @Override
  public void accept(LayoutPiece piece) throws IOException {
    if (piece instanceof LayoutPiece.Bytes kept) {
      out.write(kept.content());
    } else if (piece instanceof LayoutPiece.PcmFrames frames) {
      writeFrames(frames);
    } else if (piece instanceof LayoutPiece.FlacFrames frames) {
      FlacDoor.rebuild(frames, samples, out);
    }
  }

  private void writeFrames(LayoutPiece.PcmFrames piece) throws IOException {
    AudioFormat format = samples.format();
    if (piece.firstFrame() < 0
        || piece.frames() < 0
        || piece.firstFrame() > samples.frames() - piece.frames()) {
      throw new IOException(
          "the layout asks for "
              + piece.frames()
              + " frames from "
              + piece.firstFrame()
              + " on, the side has "
              + samples.frames());
    }
    for (long done = 0; done < piece.frames(); ) {
      int n = (int) Math.min(batchFrames, piece.frames() - done);
      samples.readWords(piece.firstFrame() + done, n, words, 0);
      WordBytes.encode(words, 0, n, format, piece.bigEndian(), bytes, 0);
      out.write(bytes, 0, n * format.bytesPerFrame());
      done += n;
    }
  }
}
