package org.groovemend.job.curves;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.chain.Quantiser;
import org.groovemend.chain.SideChain;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.restore.CurvePlan;
import org.groovemend.job.side.FrequencyChart;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.TimeRange;
import org.groovemend.measure.Decibels;
import org.groovemend.measure.LongTermSpectrum;
import org.groovemend.measure.Loudness;
import org.groovemend.measure.LoudnessMeter;
import org.groovemend.playback.ChosenCurve;
import org.groovemend.playback.CurveParameters;
import org.groovemend.playback.CurveStage;
import org.groovemend.report.Chart;
import org.groovemend.report.Pictures;
import org.groovemend.stage.RangeReader;

/**
 * Renders one passage through several curves at one loudness, for a person to choose by ear, and
 * what the spectrum has to say. Chooses nothing.
 */
public final class CurveComparison {

  /** Said wherever the spectra are shown. */
  public static final String DOUBT =
      "The spectra are evidence, not proof: how bright a recording was meant to be is not in them. Label, year and ear decide.";

  private static final double MOST_LUFS = -23;
  private static final double PEAK_DBFS = -1;
  private static final double FADE_SECONDS = 0.01;
  private static final double LEAST_SECONDS = 1;
  private static final double MOST_SECONDS = 300;
  private static final int BLOCK_FRAMES = 1 << 16;
  private static final int BITS = 24;
  private static final double STEP_DB = 10;
  private static final double LOWEST_DB = -150;

  /** A band further below the loudest holds no music worth a line (ours). */
  private static final double MUSIC_DB = 45;

  private static final int LEAST_BANDS = 4;
  private static final double[] BASS = {60, 600};
  private static final double[] TREBLE = {1800, 11_000};

  private final Request request;
  private final SideReader side;
  private final long from;
  private final int frames;

  private CurveComparison(Request request, SideReader side, long from, int frames) {
    this.request = request;
    this.side = side;
    this.from = from;
    this.frames = frames;
  }

  /**
   * What is asked.
   *
   * @param side a transfer, better one whose clicks are repaired
   * @param passage what to render, 1 to 300 s
   * @param candidates one to four
   * @param base curve to undo, and speeds
   * @param outFolder where the results go
   * @param replace whether they may replace files
   */
  public record Request(
      Path side,
      TimeRange passage,
      List<ChosenCurve> candidates,
      CurveParameters base,
      Path outFolder,
      boolean replace) {}

  /**
   * The passage through one curve.
   *
   * @param curve which
   * @param file name of the file to listen to
   * @param loudnessLufs before the match, BS.1770 integrated
   * @param peakDbfs largest sample before the match
   * @param matchDb gain that was given in that file alone, so that all are as loud
   * @param bassDbPerOctave tilt of the long-term spectrum from 63 to 500 Hz, of the bands that hold
   *     music; NaN if too few
   * @param trebleDbPerOctave the same from 2 to 10 kHz
   * @param bands long-term spectrum before the match
   */
  public record Rendered(
      ChosenCurve curve,
      String file,
      double loudnessLufs,
      double peakDbfs,
      double matchDb,
      double bassDbPerOctave,
      double trebleDbPerOctave,
      List<LongTermSpectrum.Band> bands) {}

  /**
   * What was made.
   *
   * @param loudnessLufs of all files
   * @param rendered in the order asked
   * @param picture where the spectra are drawn
   * @param evidence where the figures are
   */
  public record Outcome(
      double loudnessLufs, List<Rendered> rendered, Path picture, Path evidence) {}

  /**
   * Renders; writes all files or none.
   *
   * @throws org.groovemend.audio.InputRejectedException if the side cannot be taken
   * @throws RequestRefusedException if the passage is not in the side, or too quiet
   */
  public static Outcome run(Request request, Progress progress) throws IOException {
    CurveSheet.requireFew(request.candidates());
    try (SideReader side = SideFiles.open(request.side())) {
      AudioFormat format = side.format();
      for (ChosenCurve curve : request.candidates()) {
        CurvePlan.requireRealisable(request.base().withApply(curve.text()), format);
      }
      double length = request.passage().toSeconds() - request.passage().fromSeconds();
      if (!(length >= LEAST_SECONDS && length <= MOST_SECONDS)) {
        throw new RequestRefusedException(
            "a passage of " + length + " s cannot be compared; give 1 to 300 s, such as 40-60");
      }
      long from = Math.round(request.passage().fromSeconds() * format.sampleRateHz());
      long to = Math.round(request.passage().toSeconds() * format.sampleRateHz());
      if (to > side.frames()) {
        throw new RequestRefusedException(
            "the passage ends at "
                + request.passage().toSeconds()
                + " s, but the side at "
                + format.seconds(side.frames())
                + " s");
      }
      return new CurveComparison(request, side, from, (int) (to - from)).run(progress);
    }
  }

  private Outcome run(Progress progress) throws IOException {
    String stem = FilePath.name(side.path()).replaceFirst("\\.[^.]+$", "");
    String picture = stem + ".curves.png";
    String evidence = stem + ".curves.json";
    List<String> files = new ArrayList<>();
    for (ChosenCurve curve : request.candidates()) {
      files.add(stem + ".curve-" + curve.text().replaceAll("[^a-z0-9.-]+", "-") + ".wav");
    }
    if (files.stream().distinct().count() < files.size()) {
      throw new RequestRefusedException("a curve was named twice; name each once");
    }
    List<String> all = new ArrayList<>(files);
    all.add(picture);
    all.add(evidence);
    try (OutputSet outputs =
        OutputSet.open(request.outFolder(), all, request.replace(), List.of(request.side()))) {
      List<Rendered> heard = new ArrayList<>();
      int steps = 2 * files.size();
      for (int i = 0; i < files.size(); i++) {
        progress.at("comparing", i, steps);
        heard.add(measure(request.candidates().get(i), files.get(i)));
      }
      double target = MOST_LUFS;
      for (Rendered r : heard) {
        target = Math.min(target, r.loudnessLufs() + PEAK_DBFS - r.peakDbfs());
      }
      List<Rendered> matched = new ArrayList<>();
      for (int i = 0; i < files.size(); i++) {
        progress.at("comparing", files.size() + i, steps);
        Rendered r = matched(heard.get(i), target);
        write(r, outputs.temporary(r.file()));
        matched.add(r);
      }
      try (OutputStream out = outputs.create(picture)) {
        out.write(
            Pictures.charts(List.of(spectra(matched), CurveSheet.panel(request.candidates()))));
      }
      try (OutputStream out = outputs.create(evidence)) {
        new ObjectMapper()
            .enable(SerializationFeature.INDENT_OUTPUT)
            .writeValue(out, asMap(target, matched));
      }
      outputs.commit();
      Path folder = request.outFolder();
      return new Outcome(
          target, List.copyOf(matched), folder.resolve(picture), folder.resolve(evidence));
    }
  }

  private RangeReader through(ChosenCurve curve) {
    return new SideChain(List.of(new CurveStage(request.base().withApply(curve.text()))))
        .reader(side);
  }

  /** Is given the passage in blocks. */
  private interface Sink {
    void accept(double[][] x, int at, int count) throws IOException;
  }

  private void play(ChosenCurve curve, Sink sink) throws IOException {
    RangeReader reader = through(curve);
    double[][] x = new double[side.format().channels()][BLOCK_FRAMES];
    for (int at = 0; at < frames; at += BLOCK_FRAMES) {
      int count = Math.min(BLOCK_FRAMES, frames - at);
      reader.read(from + at, count, x);
      sink.accept(x, at, count);
    }
  }

  private Rendered measure(ChosenCurve curve, String file) throws IOException {
    AudioFormat format = side.format();
    LoudnessMeter loudness = new LoudnessMeter(format.sampleRateHz(), format.channels());
    LongTermSpectrum spectrum = new LongTermSpectrum(format.sampleRateHz(), format.channels());
    double[] peak = new double[1];
    play(
        curve,
        (x, at, count) -> {
          loudness.accept(x, count);
          spectrum.accept(x, count);
          for (double[] channel : x) {
            for (int i = 0; i < count; i++) {
              peak[0] = Math.max(peak[0], Math.abs(channel[i]));
            }
          }
        });
    Loudness measured = loudness.finish();
    if (!Double.isFinite(measured.integratedLufs())) {
      throw new RequestRefusedException(
          "the passage is too quiet for its loudness to be measured (under -70 LUFS); give a louder one");
    }
    List<LongTermSpectrum.Band> bands = spectrum.thirdOctaves();
    return new Rendered(
        curve,
        file,
        measured.integratedLufs(),
        Decibels.ofAmplitude(peak[0]),
        0,
        tilt(bands, BASS),
        tilt(bands, TREBLE),
        bands);
  }

  private static Rendered matched(Rendered r, double target) {
    return new Rendered(
        r.curve(),
        r.file(),
        r.loudnessLufs(),
        r.peakDbfs(),
        target - r.loudnessLufs(),
        r.bassDbPerOctave(),
        r.trebleDbPerOctave(),
        r.bands());
  }

  /**
   * Slope of the least-squares line through the levels of the bands within that hold music; NaN if
   * there are fewer than four.
   */
  private static double tilt(List<LongTermSpectrum.Band> bands, double[] range) {
    double loudest = bands.stream().mapToDouble(LongTermSpectrum.Band::levelDbfs).max().orElse(0);
    double n = 0;
    double sx = 0;
    double sy = 0;
    double sxx = 0;
    double sxy = 0;
    for (LongTermSpectrum.Band band : bands) {
      boolean holds = band.levelDbfs() > loudest - MUSIC_DB;
      if (holds && band.centreHz() > range[0] && band.centreHz() < range[1]) {
        double x = StrictMath.log(band.centreHz()) / StrictMath.log(2);
        double y = band.levelDbfs();
        n++;
        sx += x;
        sy += y;
        sxx += x * x;
        sxy += x * y;
      }
    }
    return n < LEAST_BANDS ? Double.NaN : (n * sxy - sx * sy) / (n * sxx - sx * sx);
  }

  private void write(Rendered r, Path file) throws IOException {
    AudioFormat format =
        AudioFormat.pcm(side.format().sampleRateHz(), side.format().channels(), BITS);
    double gain = StrictMath.pow(10, r.matchDb() / 20);
    int fade = (int) (FADE_SECONDS * format.sampleRateHz());
    Quantiser quantiser = new Quantiser(format, 1);
    long[][] words = new long[format.channels()][BLOCK_FRAMES];
    try (WavWriter writer =
        WavWriter.create(file, format, frames, List.of(WavChunk.samples()), null)) {
      play(
          r.curve(),
          (x, at, count) -> {
            for (int c = 0; c < x.length; c++) {
              for (int i = 0; i < count; i++) {
                int edge = Math.min(at + i + 1, frames - at - i);
                x[c][i] *= gain * Math.min(1, edge / (double) fade);
              }
              quantiser.quantise(c, at, x[c], count, words[c]);
            }
            writer.write(words, 0, count);
          });
    }
  }

  private static Chart spectra(List<Rendered> rendered) {
    List<Chart.Series> series = new ArrayList<>();
    for (Rendered r : rendered) {
      List<Chart.Point> points = new ArrayList<>();
      for (LongTermSpectrum.Band band : r.bands()) {
        points.add(
            FrequencyChart.point(
                band.centreHz(), Math.max(LOWEST_DB, band.levelDbfs() + r.matchDb())));
      }
      series.add(new Chart.Series("through " + r.curve().text(), true, points));
    }
    return FrequencyChart.panel("third octaves, same loudness (dBFS)", STEP_DB, series);
  }

  private Map<String, Object> asMap(double target, List<Rendered> rendered) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("curveComparison", 1);
    map.put("side", FilePath.name(side.path()));
    map.put("fromSeconds", request.passage().fromSeconds());
    map.put("toSeconds", request.passage().toSeconds());
    map.put("undone", CurveSheet.head(request.base().undone()));
    map.put("speedRatio", request.base().speedRatio());
    map.put("loudnessLufs", target);
    List<Map<String, Object>> all = new ArrayList<>();
    for (Rendered r : rendered) {
      Map<String, Object> one = CurveSheet.head(r.curve());
      one.put("file", r.file());
      one.put("loudnessBeforeMatchLufs", r.loudnessLufs());
      one.put("peakBeforeMatchDbfs", r.peakDbfs());
      one.put("matchDb", r.matchDb());
      one.put("bassDbPerOctave", orNull(r.bassDbPerOctave()));
      one.put("trebleDbPerOctave", orNull(r.trebleDbPerOctave()));
      one.put("thirdOctaves", r.bands());
      all.add(one);
    }
    map.put("candidates", all);
    map.put("doubt", DOUBT);
    return map;
  }

  private static Double orNull(double value) {
    return Double.isNaN(value) ? null : value;
  }
}
