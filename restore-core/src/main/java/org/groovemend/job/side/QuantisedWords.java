package org.groovemend.job.side;

import java.io.IOException;
import org.groovemend.chain.Quantiser;
import org.groovemend.chain.WordSink;
import org.groovemend.resample.SampleSink;

/** Makes words of samples on their way into a file. */
public final class QuantisedWords implements SampleSink {
  private final Quantiser quantiser;
  private final WordSink sink;
  private final long[][] words;

  public QuantisedWords(Quantiser quantiser, int channels, WordSink sink) {
    this.quantiser = quantiser;
    this.sink = sink;
    words = new long[channels][0];
  }

  @Override
  public void accept(long firstFrame, double[][] samples, int count) throws IOException {
    for (int c = 0; c < words.length; c++) {
      if (words[c].length < count) {
        words[c] = new long[samples[c].length];
      }
      quantiser.quantise(c, firstFrame, samples[c], count, words[c]);
    }
    sink.write(words, 0, count);
  }
}
