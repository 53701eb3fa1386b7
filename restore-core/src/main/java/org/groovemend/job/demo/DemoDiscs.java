package org.groovemend.job.demo;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.audio.file.CodingHistory;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.deliver.DeliverOutcome;
import org.groovemend.job.side.FrequencyChart;
import org.groovemend.measure.LongTermSpectrum;
import org.groovemend.report.Chart;
import org.groovemend.report.Pictures;
import org.groovemend.simulate.FlatDisc;
import org.groovemend.stage.RangeReader;

/** Two invented discs, transferred flat, for a delivery from beginning to end. */
public final class DemoDiscs {

  /** Names of the transfers. */
  public static final String COARSE = "flat-78";

  public static final String LONG_PLAYING = "flat-lp";

  /** Names of what else is written. */
  public static final String RECIPE_NAME = "recipe.yaml";

  private static final String PICTURE = "spectra.png";
  private static final double LP_SECONDS = 20;
  private static final double REFERENCE_HZ = 1000;
  private static final double STEP_DB = 10;
  private static final int BLOCK = 1 << 16;

  private final FlatDisc coarse;
  private final FlatDisc longPlaying;

  private DemoDiscs(FlatDisc coarse, FlatDisc longPlaying) {
    this.coarse = coarse;
    this.longPlaying = longPlaying;
  }

  /** Invents them. */
  public static DemoDiscs make() {
    return new DemoDiscs(FlatDisc.coarse(1), FlatDisc.microgroove(2, LP_SECONDS));
  }

  /** Writes both transfers and a recipe into a folder, all or none. */
  public void write(Path folder, String recipe, Instant now) throws IOException {
    String first = COARSE + ".wav";
    String second = LONG_PLAYING + ".wav";
    try (OutputSet outputs = OutputSet.open(folder, List.of(first, second, RECIPE_NAME), false)) {
      write(coarse, outputs.temporary(first), "invented coarse groove; flat", now);
      write(longPlaying, outputs.temporary(second), "invented fine groove; flat", now);
      Files.write(outputs.temporary(RECIPE_NAME), recipe.getBytes(StandardCharsets.UTF_8));
      outputs.commit();
    }
  }

  private static void write(FlatDisc disc, Path file, String words, Instant now)
      throws IOException {
    AudioFormat format = AudioFormat.pcm(disc.sampleRateHz(), 2, 24);
    int frames = disc.transfer()[0].length;
    long[][] samples = new long[2][frames];
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < frames; i++) {
        samples[c][i] = Math.round(disc.transfer()[c][i] * (1 << 23));
      }
    }
    byte[] bext =
        BroadcastExtension.withHistoryLine(
            null,
            CodingHistory.line(format, words),
            new BroadcastExtension.Origin(
                words, null, LocalDateTime.ofInstant(now, ZoneOffset.UTC)));
    try (WavWriter writer =
        WavWriter.create(
            file,
            format,
            frames,
            List.of(WavChunk.of(BroadcastExtension.CHUNK_ID, bext), WavChunk.samples()),
            null)) {
      writer.write(samples, 0, frames);
    }
  }

  /**
   * Draws the spectra of what was played, of the flat transfers, and of the copies made of them.
   *
   * @param folder that holds the transfers; the picture goes there
   * @param delivery made from them
   * @return the picture
   */
  public Path draw(Path folder, DeliverOutcome delivery, Progress progress) throws IOException {
    List<Chart> charts =
        List.of(
            chart(coarse, COARSE, folder, delivery, progress),
            chart(longPlaying, LONG_PLAYING, folder, delivery, progress));
    try (OutputSet outputs = OutputSet.open(folder, List.of(PICTURE), false)) {
      Files.write(outputs.temporary(PICTURE), Pictures.charts(charts));
      outputs.commit();
    }
    return folder.resolve(PICTURE);
  }

  private static Chart chart(
      FlatDisc disc, String name, Path folder, DeliverOutcome delivery, Progress progress)
      throws IOException {
    List<Chart.Series> series = new ArrayList<>();
    LongTermSpectrum played = new LongTermSpectrum(disc.sampleRateHz(), 2);
    played.accept(disc.music(), disc.music()[0].length);
    series.add(series("music", played));
    series.add(series("flat transfer", spectrum(folder.resolve(name + ".wav"), progress)));
    for (DeliverOutcome.Copy copy : delivery.copies()) {
      if (copy.file().name().startsWith(name + ".") && copy.kind() != CopyKind.PRESERVATION) {
        series.add(
            series(
                copy.kind().key(),
                spectrum(delivery.record().resolveSibling(copy.file().name()), progress)));
      }
    }
    return FrequencyChart.panel(name + ": level re 1 kHz (dB)", STEP_DB, series);
  }

  private static LongTermSpectrum spectrum(Path file, Progress progress) throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      RangeReader sound = new SideChain(List.of()).reader(side);
      LongTermSpectrum spectrum =
          new LongTermSpectrum(side.format().sampleRateHz(), side.format().channels());
      double[][] block = new double[side.format().channels()][BLOCK];
      for (long at = 0; at < side.frames(); at += BLOCK) {
        int count = (int) Math.min(BLOCK, side.frames() - at);
        sound.read(at, count, block);
        spectrum.accept(block, count);
        progress.at("drawing", at + count, side.frames());
      }
      return spectrum;
    }
  }

  /** What the ear can tell of them lies between 50 Hz and 16 kHz. */
  private static Chart.Series series(String name, LongTermSpectrum spectrum) {
    List<LongTermSpectrum.Band> bands = spectrum.thirdOctaves();
    double reference = 0;
    double nearest = Double.POSITIVE_INFINITY;
    for (LongTermSpectrum.Band band : bands) {
      double away = Math.abs(StrictMath.log(band.centreHz() / REFERENCE_HZ));
      if (away < nearest) {
        nearest = away;
        reference = band.levelDbfs();
      }
    }
    List<Chart.Point> points = new ArrayList<>();
    for (LongTermSpectrum.Band band : bands) {
      if (band.centreHz() > 49 && band.centreHz() < 17_000) {
        points.add(FrequencyChart.point(band.centreHz(), band.levelDbfs() - reference));
      }
    }
    return new Chart.Series(name, true, points);
  }
}
