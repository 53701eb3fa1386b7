package org.groovemend.job;

import java.io.IOException;
import java.util.List;
import org.groovemend.audio.WordSource;
import org.groovemend.chain.SideChain;
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
    return new SideChain(List.of()).reader(side)::read;
  }
}
