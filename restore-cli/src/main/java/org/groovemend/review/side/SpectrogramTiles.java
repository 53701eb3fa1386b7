package org.groovemend.review.side;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;
import org.groovemend.report.Pictures;
import org.groovemend.report.SampleRanges;
import org.groovemend.report.Spectrogram;

/**
 * Spectrograms as PNG tiles of {@value #COLUMNS} columns of 2^level frames, made when they are
 * asked for; some of the last ones are kept.
 */
public final class SpectrogramTiles {

  public static final int COLUMNS = 256;
  public static final int ROWS = 160;

  private static final int HIGHEST_LEVEL = 31;

  /** Some 30 kB each. */
  private static final int KEPT = 200;

  /** The longest window of a {@link Spectrogram} and a little. */
  private static final int LONGEST_WINDOW = 4096;

  /** Shorter tiles are read once, as their windows overlap: reading backwards may be slow. */
  private static final int READ_WHOLE_FRAMES = 1 << 20;

  private record Key(boolean after, int level, long number) {}

  private final ReviewSide side;
  private final Recent<Key, byte[]> recent = new Recent<>(KEPT);

  public SpectrogramTiles(ReviewSide side) {
    this.side = side;
  }

  /**
   * One tile.
   *
   * @throws IllegalArgumentException if there is no such tile
   */
  public byte[] tile(boolean after, int level, long number) throws IOException {
    if (level < 0
        || level > HIGHEST_LEVEL
        || number < 0
        || number > (side.frames() - 1 >> level) / COLUMNS) {
      throw new IllegalArgumentException("there is no tile " + number + " of level " + level);
    }
    return recent.get(new Key(after, level, number), this::make);
  }

  private byte[] make(Key key) throws IOException {
    // columns beside the tile, so that windows reach as far as they would in the whole side
    int beside = Math.max(1, LONGEST_WINDOW / 2 >> key.level);
    int columns = COLUMNS + 2 * beside;
    long first = (key.number * COLUMNS - beside) << key.level;
    long frames = (long) columns << key.level;
    return side.with(
        sides -> {
          WordSource source = key.after ? sides.after() : sides.before();
          SampleRanges samples = (at, count, into) -> read(source, first + at, count, into);
          Spectrogram spectrogram =
              Spectrogram.of(
                  frames <= READ_WHOLE_FRAMES ? inMemory(samples, (int) frames) : samples,
                  side.format(),
                  frames,
                  columns,
                  ROWS);
          return Pictures.spectrogramTile(spectrogram, beside, COLUMNS);
        });
  }

  private SampleRanges inMemory(SampleRanges samples, int frames) throws IOException {
    double[][] all = new double[side.format().channels()][frames];
    samples.read(0, frames, all);
    return (first, count, into) -> {
      for (int c = 0; c < all.length; c++) {
        System.arraycopy(all[c], (int) first, into[c], 0, count);
      }
    };
  }

  /** What lies outside the side is silence. */
  private void read(WordSource source, long first, int count, double[][] into) throws IOException {
    int skip = (int) Math.min(count, Math.max(0, -first));
    int there = (int) Math.max(0, Math.min(count, side.frames() - first) - skip);
    long[][] words = new long[into.length][Math.max(1, there)];
    if (there > 0) {
      source.readWords(first + skip, there, words, 0);
    }
    for (int c = 0; c < into.length; c++) {
      Arrays.fill(into[c], 0, count, 0);
      Words.toDoubles(words[c], 0, into[c], skip, there, side.format());
    }
  }
}
