package org.groovemend.report;

import java.util.List;

/**
 * The pictures of a side as PNG files: light sheets, {@value Plot#WIDTH} pixels wide, time axes of
 * equal length and place.
 *
 * <p>Text is drawn with characters of our own, so no font is needed. A side without samples gives
 * empty axes. Safe to call from several threads.
 */
public final class Pictures {

  /** Columns to ask {@link EnvelopeBuilder} and {@link Spectrogram} for: one a pixel. */
  public static final int COLUMNS = Plot.COLUMNS;

  /** Rows to ask {@link Spectrogram} for: one a pixel. */
  public static final int SPECTROGRAM_ROWS = SpectrogramPicture.ROWS;

  /** Columns to ask {@link EditDensityBuilder} for. */
  public static final int EDIT_COLUMNS = Plot.COLUMNS / 4;

  private Pictures() {}

  /**
   * Waveform before and after, one lane a channel, both on the same linear scale: the smallest
   * round number that holds the larger peak.
   *
   * @throws IllegalArgumentException if the two differ in length or channels
   */
  public static byte[] waveform(Envelope before, Envelope after) {
    return WaveformPicture.draw(before, after);
  }

  /**
   * Spectrogram before and after on one colour scale, -110 to -10 dB re a full-scale sine.
   *
   * @throws IllegalArgumentException if the two differ in length or sample rate
   */
  public static byte[] spectrogram(Spectrogram before, Spectrogram after) {
    return SpectrogramPicture.draw(before, after);
  }

  /**
   * Some columns of a spectrogram as a bare picture, one pixel a column and row, high frequencies
   * on top, on the same colour scale.
   */
  public static byte[] spectrogramTile(Spectrogram spectrogram, int firstColumn, int columns) {
    return SpectrogramPicture.tile(spectrogram, firstColumn, columns);
  }

  /**
   * Edits over time, per channel: count (bars) and changed share (strip), each scaled to its
   * largest value.
   */
  public static byte[] edits(EditDensity density) {
    return EditsPicture.draw(density);
  }

  /**
   * The side as the disc lies: angle against radius, every repaired place a mark, rows that recur
   * once a turn joined up. What is assumed stands in the picture.
   */
  public static byte[] disc(DiscMap map, DiscMarksBuilder marks) {
    return DiscPicture.draw(map, marks.build());
  }

  /** Level over time with groove noise, gaps and cuts. */
  public static byte[] levels(LevelCourse course) {
    return LevelCoursePicture.draw(course);
  }

  /** Points with their intervals, lines between them, on labelled axes. */
  public static byte[] chart(Chart chart) {
    return ChartPicture.draw(chart);
  }

  /** A chart as SVG 1.1. */
  public static String chartVector(Chart chart) {
    return ChartVector.draw(chart);
  }

  /** Charts as one PNG file, a small panel for each, two beside one another. */
  public static byte[] charts(List<Chart> charts) {
    return ChartPicture.draw(charts);
  }

  /** The side over time for people who read few pictures: before, after, where repairs lie. */
  public static byte[] accountOfSide(Envelope before, Envelope after, EditDensity repairs) {
    return AccountPicture.side(before, after, repairs);
  }

  /**
   * How loud the noise sounds, before 100.
   *
   * @param share after over before
   */
  public static byte[] accountOfNoise(double share) {
    return AccountPicture.noise(share);
  }

  /** One spectrogram alone. */
  public static byte[] spectrogram(Spectrogram one) {
    return SpectrogramPicture.draw(one);
  }

  /** Where the two walls move: lateral upwards, vertical across. */
  public static byte[] field(WallField field) {
    return WallFieldPicture.draw(field);
  }

  /** Pictures with their titles, one below the other, in one PNG file. */
  public static byte[] stacked(List<Figure> figures) {
    return StackedPicture.draw(figures);
  }

  /**
   * A text as pictures show it: letters that have no shape here as U+ and their number, the end
   * left out where it is too long.
   *
   * @param most characters, more than 3
   */
  public static String fitted(String text, int most) {
    String spelled = Glyphs.spelled(text);
    return spelled.length() <= most ? spelled : spelled.substring(0, most - 3) + "...";
  }
}
