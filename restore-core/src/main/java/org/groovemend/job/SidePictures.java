package org.groovemend.job;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;
import org.groovemend.report.Envelope;
import org.groovemend.report.EnvelopeBuilder;
import org.groovemend.report.Pictures;
import org.groovemend.report.SampleRanges;
import org.groovemend.report.Spectrogram;

/**
 * Pictures of a side before and after, as PNG files.
 *
 * @param waveform outline, before above after
 * @param spectrogram the same in frequency
 */
record SidePictures(byte[] waveform, byte[] spectrogram) {

  private static final int BLOCK_FRAMES = 1 << 16;

  /** Reads both sides whole. */
  static SidePictures of(WordSource before, WordSource after) throws IOException {
    return of(before, envelope(before), after, envelope(after));
  }

  /** For outlines that are known already. */
  static SidePictures of(
      WordSource before, Envelope envelopeBefore, WordSource after, Envelope envelopeAfter)
      throws IOException {
    return new SidePictures(
        Pictures.waveform(envelopeBefore, envelopeAfter),
        Pictures.spectrogram(spectrogram(before), spectrogram(after)));
  }

  private static Envelope envelope(WordSource side) throws IOException {
    EnvelopeBuilder builder =
        new EnvelopeBuilder(side.format(), side.frames(), Pictures.COLUMNS);
    double[][] samples = new double[side.format().channels()][BLOCK_FRAMES];
    SampleRanges ranges = ranges(side);
    for (long at = 0; at < side.frames(); at += BLOCK_FRAMES) {
      int count = (int) Math.min(BLOCK_FRAMES, side.frames() - at);
      ranges.read(at, count, samples);
      builder.accept(samples, 0, count);
    }
    return builder.build();
  }

  private static Spectrogram spectrogram(WordSource side) throws IOException {
    return Spectrogram.of(
        ranges(side), side.format(), side.frames(), Pictures.COLUMNS, Pictures.SPECTROGRAM_ROWS);
  }

  private static SampleRanges ranges(WordSource side) {
    AudioFormat format = side.format();
    long[][] words = new long[format.channels()][];
    return (first, count, into) -> {
      for (int c = 0; c < words.length; c++) {
        if (words[c] == null || words[c].length < count) {
          words[c] = new long[count];
        }
      }
      side.readWords(first, count, words, 0);
      for (int c = 0; c < words.length; c++) {
        Words.toDoubles(words[c], 0, into[c], 0, count, format);
      }
    };
  }
}
