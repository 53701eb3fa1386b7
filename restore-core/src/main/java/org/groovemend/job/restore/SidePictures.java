package org.groovemend.job.restore;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.groovemend.audio.WordSource;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.report.Envelope;
import org.groovemend.report.EnvelopeBuilder;
import org.groovemend.report.Figure;
import org.groovemend.report.Pictures;
import org.groovemend.report.SampleRanges;
import org.groovemend.report.Spectrogram;
import org.groovemend.stage.Crew;

/**
 * Pictures of a side before and after, as PNG files.
 *
 * @param waveform outline, before above after
 * @param spectrogram the same in frequency
 */
public record SidePictures(byte[] waveform, byte[] spectrogram) {

  private static final int BLOCK_FRAMES = 1 << 16;

  /** Reads both sides whole. */
  public static SidePictures of(WordSource before, WordSource after, Crew crew, Progress progress)
      throws IOException {
    return of(before, envelope(before, progress), after, envelope(after, progress), crew, progress);
  }

  /** For outlines that are known already. */
  public static SidePictures of(
      WordSource before,
      Envelope envelopeBefore,
      WordSource after,
      Envelope envelopeAfter,
      Crew crew,
      Progress progress)
      throws IOException {
    Spectrogram[] spectra = new Spectrogram[2];
    try {
      crew.together(
          () -> spectra[0] = unchecked(() -> spectrogram(before, progress)),
          // only the first tells how far it is: both are as far
          () -> spectra[1] = unchecked(() -> spectrogram(after, Progress.SILENT)));
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    return new SidePictures(
        Pictures.waveform(envelopeBefore, envelopeAfter),
        Pictures.spectrogram(spectra[0], spectra[1]));
  }

  /** Both with their words, as they stand on a page. */
  public List<Figure> figures() {
    return List.of(
        new Figure(
            "Waveform",
            "Outline of every channel over the whole side, before above after.",
            "Upper: the transfer. Lower: the clean copy, same scale. Clicks are the thin spikes that are missing below.",
            waveform),
        new Figure(
            "Spectrum over time",
            "Level by frequency and time over the whole side, before above after.",
            "Vertical lines are clicks, the even veil is groove noise. Shapes of music should be the same in both.",
            spectrogram));
  }

  private interface Drawing {
    Spectrogram draw() throws IOException;
  }

  private static Spectrogram unchecked(Drawing drawing) {
    try {
      return drawing.draw();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Envelope envelope(WordSource side, Progress progress) throws IOException {
    EnvelopeBuilder builder = new EnvelopeBuilder(side.format(), side.frames(), Pictures.COLUMNS);
    double[][] samples = new double[side.format().channels()][BLOCK_FRAMES];
    SampleRanges ranges = ranges(side, progress);
    for (long at = 0; at < side.frames(); at += BLOCK_FRAMES) {
      int count = (int) Math.min(BLOCK_FRAMES, side.frames() - at);
      ranges.read(at, count, samples);
      builder.accept(samples, 0, count);
    }
    return builder.build();
  }

  private static Spectrogram spectrogram(WordSource side, Progress progress) throws IOException {
    return Spectrogram.of(
        ranges(side, progress),
        side.format(),
        side.frames(),
        Pictures.COLUMNS,
        Pictures.SPECTROGRAM_ROWS);
  }

  /**
   * Says before each piece how far it has come, so that a picture can be stopped like any other
   * step.
   */
  private static SampleRanges ranges(WordSource side, Progress progress) {
    SampleRanges samples = new SideChain(List.of()).reader(side)::read;
    return (first, count, into) -> {
      progress.at("drawing", first, side.frames());
      samples.read(first, count, into);
    };
  }
}
