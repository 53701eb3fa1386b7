package org.groovemend.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import javax.imageio.ImageIO;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.Test;

class PicturesTest {

  private static BufferedImage image(byte[] png) throws IOException {
    return ImageIO.read(new ByteArrayInputStream(png));
  }

  private static int colour(BufferedImage image, int x, int y) {
    return image.getRGB(x, y) & 0xffffff;
  }

  private static Envelope envelope(int channels, int frames, double amplitude) {
    EnvelopeBuilder builder =
        new EnvelopeBuilder(AudioFormat.pcm(48_000, channels, 24), frames, Pictures.COLUMNS);
    double[][] x = new double[channels][frames];
    for (int c = 0; c < channels; c++) {
      for (int i = frames / 2; i < frames; i++) {
        x[c][i] = i % 2 == 0 ? amplitude : -amplitude;
      }
    }
    builder.accept(x, 0, frames);
    return builder.build();
  }

  private static Spectrogram silence(int frames, int rate) throws IOException {
    return Spectrogram.of(
        (first, count, into) -> {}, AudioFormat.pcm(rate, 2, 24), frames, Pictures.COLUMNS, 288);
  }

  @Test
  void picturesAreAsWideAsStatedAndTheSameEachTime() throws IOException {
    for (int channels = 1; channels <= 2; channels++) {
      Envelope e = envelope(channels, 48_000, 0.4);
      byte[] png = Pictures.waveform(e, envelope(channels, 48_000, 0.2));
      assertThat(image(png).getWidth()).isEqualTo(1200);
      assertThat(image(png).getHeight()).isEqualTo(channels == 1 ? 382 : 642);
      assertThat(Pictures.waveform(e, envelope(channels, 48_000, 0.2))).isEqualTo(png);
      assertThat(Pictures.waveform(e, e)).isNotEqualTo(png);
    }
    byte[] spectrogram = Pictures.spectrogram(silence(48_000, 48_000), silence(48_000, 48_000));
    assertThat(image(spectrogram).getWidth()).isEqualTo(1200);
    assertThat(image(spectrogram).getHeight()).isEqualTo(730);
  }

  @Test
  void waveformShowsBeforeInOrangeAndAfterInBlueAtTheirHeights() throws IOException {
    // range 0.4 fills the lane: full height before, half after; silence in the first half
    BufferedImage image =
        image(Pictures.waveform(envelope(1, 48_000, 0.4), envelope(1, 48_000, 0.2)));
    int x = Plot.LEFT + 3 * Plot.COLUMNS / 4;
    int[] before = extent(image, x, Palette.BEFORE, Palette.BEFORE_DEEP);
    int[] after = extent(image, x, Palette.AFTER, Palette.AFTER_DEEP);
    assertThat(before[1] - before[0]).isEqualTo(112);
    assertThat(after[1] - after[0]).isEqualTo(56);
    assertThat(after[0]).isGreaterThan(before[1]);
    int[] quiet = extent(image, Plot.LEFT + 101, Palette.BEFORE, Palette.BEFORE_DEEP);
    assertThat(quiet[1] - quiet[0]).isZero();
  }

  /** First and last row of a pixel column that has one of two colours. */
  private static int[] extent(BufferedImage image, int x, int a, int b) {
    int[] extent = {-1, -1};
    for (int y = 0; y < image.getHeight(); y++) {
      if (colour(image, x, y) == a || colour(image, x, y) == b) {
        extent[0] = extent[0] < 0 ? y : extent[0];
        extent[1] = y;
      }
    }
    return extent;
  }

  @Test
  void spectrogramPixelHasTheColourOfItsLevelInTheColourBar() throws IOException {
    float[][] db = new float[960][288];
    for (float[] column : db) {
      java.util.Arrays.fill(column, -60);
    }
    db[480][144] = -10;
    Spectrogram s = new Spectrogram(48_000, 48_000, 2048, db);
    BufferedImage image = image(Pictures.spectrogram(s, silence(48_000, 48_000)));
    int[] scale = LevelColours.scale(Sheet.LEVEL_COUNT);
    int top = 38;
    assertThat(colour(image, Plot.LEFT + 480, top + 287 - 144)).isEqualTo(scale[scale.length - 1]);
    assertThat(colour(image, Plot.LEFT + 20, top + 100)).isEqualTo(scale[124]);
    assertThat(colour(image, Plot.LEFT + 20, top + 306 + 8 + 100)).isEqualTo(scale[0]);
  }

  @Test
  void editsBarStandsAtItsTime() throws IOException {
    EditDensityBuilder builder =
        new EditDensityBuilder(AudioFormat.pcm(48_000, 1, 24), 48_000, Pictures.EDIT_COLUMNS);
    builder.add(0, 24_000, 24_010);
    BufferedImage image = image(Pictures.edits(builder.build()));
    int lane = 12 + 2 * 24 + 4 + 60;
    assertThat(colour(image, Plot.LEFT + 480, lane)).isEqualTo(Palette.AFTER_DEEP);
    assertThat(colour(image, Plot.LEFT + 470, lane)).isEqualTo(Palette.PAPER);
  }

  @Test
  void differentLengthsAreRefused() {
    assertThatThrownBy(() -> Pictures.waveform(envelope(1, 100, 0.1), envelope(1, 101, 0.1)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("before has 100 frames in 1 channels, after 101");
    assertThatThrownBy(() -> Pictures.spectrogram(silence(100, 48_000), silence(100, 44_100)))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void emptyAndTinySidesAreDrawn() throws IOException {
    for (int frames : new int[] {0, 1, 48}) {
      assertThat(image(Pictures.waveform(envelope(2, frames, 0.1), envelope(2, frames, 0.1))))
          .isNotNull();
      assertThat(image(Pictures.spectrogram(silence(frames, 8_000), silence(frames, 8_000))))
          .isNotNull();
    }
  }

  @Test
  void scaleOfTheWaveformHoldsThePeakTightly() {
    assertThat(WaveformPicture.range(0.501187)).isEqualTo(0.6);
    assertThat(WaveformPicture.range(1)).isEqualTo(1);
    assertThat(WaveformPicture.range(0.4f)).isEqualTo(0.4);
    assertThat(WaveformPicture.range(1.01)).isEqualTo(1.5);
    assertThat(WaveformPicture.range(0)).isEqualTo(1);
    assertThat(WaveformPicture.range(3e-9)).isEqualTo(1e-6);
    for (double peak = 1e-6; peak < 100; peak *= 1.17) {
      assertThat(WaveformPicture.range(peak)).isBetween(peak * (1 - 2e-7), peak * 1.5001);
    }
  }

  @Test
  void timeAxisSpeaksTheUnitOfItsLength() {
    assertThat(TimeAxis.of(96, 96_000).unit()).isEqualTo("ms");
    assertThat(labels(30 * 96_000L, 96_000))
        .containsExactly("0", "5", "10", "15", "20", "25", "30");
    assertThat(labels(240 * 48_000L, 48_000)).startsWith("0:00", "0:30", "1:00");
    assertThat(TimeAxis.of(7200L * 8000, 8000).unit()).isEqualTo("h:min");
    assertThat(labels(7200L * 8000, 8000))
        .containsExactly("0:00", "0:15", "0:30", "0:45", "1:00", "1:15", "1:30", "1:45", "2:00");
    for (long frames = 1; frames < 10_000_000_000L; frames = frames * 3 + 1) {
      assertThat(labels(frames, 96_000)).hasSizeBetween(2, 12).doesNotHaveDuplicates();
    }
  }

  private static List<String> labels(long frames, int rate) {
    return TimeAxis.of(frames, rate).ticks().stream().map(TimeAxis.Tick::label).toList();
  }

  @Test
  void everyPrintableCharacterHasAShapeOfItsOwn() {
    java.util.Set<String> shapes = new java.util.HashSet<>();
    for (char c = 32; c < 127; c++) {
      StringBuilder shape = new StringBuilder();
      for (int row = 0; row < Glyphs.ROWS; row++) {
        for (int column = 0; column < Glyphs.COLUMNS; column++) {
          shape.append(Glyphs.dot(c, column, row) ? '#' : '.');
        }
      }
      assertThat(shapes.add(shape.toString())).as("'%c'", c).isTrue();
    }
    assertThat(Glyphs.dot('\u6f22', 1, 0)).isEqualTo(Glyphs.dot('?', 1, 0));
  }
}
