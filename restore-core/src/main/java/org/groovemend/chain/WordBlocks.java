package org.groovemend.chain;

import java.io.IOException;

/** The end of the chain: quantises what arrives and writes it on. */
final class WordBlocks implements BlockSink {

  private static final int BLOCK_FRAMES = 1 << 14;

  private final Quantiser quantiser;
  private final WordSink out;
  private final long[][] words;
  private final double[] part = new double[BLOCK_FRAMES];

  WordBlocks(Quantiser quantiser, int channels, WordSink out) {
    this.quantiser = quantiser;
    this.out = out;
    this.words = new long[channels][BLOCK_FRAMES];
  }

  @Override
  public void accept(long firstFrame, double[][] samples, int count) throws IOException {
    for (int done = 0; done < count; done += BLOCK_FRAMES) {
      int n = Math.min(BLOCK_FRAMES, count - done);
      for (int c = 0; c < words.length; c++) {
        System.arraycopy(samples[c], done, part, 0, n);
        quantiser.quantise(c, firstFrame + done, part, n, words[c]);
      }
      out.write(words, 0, n);
    }
  }
}
