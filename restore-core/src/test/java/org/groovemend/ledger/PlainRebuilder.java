package org.groovemend.ledger;

import java.io.IOException;
import java.io.OutputStream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.LayoutSink;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;

/**
 * Writes bytes and PCM pieces, frame by frame; the plain statement of what the real rebuilder does.
 */
record PlainRebuilder(WordSource samples, OutputStream out, int blockFrames) implements LayoutSink {

  PlainRebuilder(WordSource samples, OutputStream out) {
    this(samples, out, 7);
  }

  @Override
  public void accept(LayoutPiece piece) throws IOException {
    if (piece instanceof LayoutPiece.Bytes bytes) {
      out.write(bytes.content());
    } else if (piece instanceof LayoutPiece.PcmFrames pcm) {
      AudioFormat format = samples.format();
      long[][] words = new long[format.channels()][blockFrames];
      byte[] word = new byte[format.bytesPerSample()];
      for (long done = 0; done < pcm.frames(); done += blockFrames) {
        int n = (int) Math.min(blockFrames, pcm.frames() - done);
        samples.readWords(pcm.firstFrame() + done, n, words, 0);
        for (int i = 0; i < n; i++) {
          for (long[] channel : words) {
            if (pcm.bigEndian()) {
              Words.putBigEndian(channel[i], word, 0, word.length);
            } else {
              Words.putLittleEndian(channel[i], word, 0, word.length);
            }
            out.write(word);
          }
        }
      }
    } else {
      throw new UnsupportedOperationException("no FLAC here");
    }
  }
}
