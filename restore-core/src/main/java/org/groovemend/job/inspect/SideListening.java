package org.groovemend.job.inspect;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.chain.RepairSample;
import org.groovemend.chain.SideChain;
import org.groovemend.click.CaptureAnalyser;
import org.groovemend.click.CaptureFinding;
import org.groovemend.click.ClickAnalyser;
import org.groovemend.click.ClickParameters;
import org.groovemend.click.ClickStage;
import org.groovemend.hum.HumAnalyser;
import org.groovemend.hum.HumFinding;
import org.groovemend.hum.HumParameters;
import org.groovemend.job.side.Survey;
import org.groovemend.job.side.WatchedRanges;
import org.groovemend.job.side.WholeWords;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.measure.Programme;
import org.groovemend.measure.ProgrammeMeter;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.report.Pictures;
import org.groovemend.report.Spectrogram;
import org.groovemend.report.WallField;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rumble.RumbleAnalyser;
import org.groovemend.rumble.RumbleFinding;
import org.groovemend.rumble.RumbleParameters;
import org.groovemend.speed.HumSource;
import org.groovemend.speed.SpeedAnalyser;
import org.groovemend.speed.SpeedFinding;
import org.groovemend.speed.SpeedQuestion;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.transfer.BlockMeter;
import org.groovemend.walls.WallAnalyser;
import org.groovemend.walls.WallFinding;

/** The longer measurements of an inspection, beside one another, each with a reader of its own. */
final class SideListening {
  /** Repairs are counted in no more of a side than this. */
  static final double CLICK_SECONDS = 30;

  /** So many repairs tell their rate within a seventh: no more are counted. */
  private static final int ENOUGH_CLICKS = 50;

  /** Of so much of a side its clicks are asked how it was captured, unless they tell it sooner. */
  private static final double CAPTURE_SECONDS = 25;

  /** So much sets the thresholds of what is counted. */
  private static final double THRESHOLD_SECONDS = 25;

  /** Hum that is there all through a side is there in its middle. */
  static final double HUM_SECONDS = 120;

  /** Of longer sides the middle is followed in pitch. */
  static final double PITCH_SECONDS = 300;

  /** Of longer sides so many seconds, spread evenly, are compared wall by wall. */
  static final int WALL_SECONDS = 60;

  private static final double CONCERT_PITCH_HZ = 440;

  private final InspectRequest request;
  private final Progress progress;
  private volatile boolean stopped;
  private Survey survey;
  private Programme programme;
  private TransferMeters sound;
  private WallField field;
  private TransferMeters.Result meters;
  private WallFinding walls;
  private SpeedFinding speed;
  private HumFinding hum;
  private RumbleFinding rumble;
  private GrooveStretches stretches;
  private CaptureFinding capture;
  private RepairSample clicks;
  private RotationFinding rotation;
  private Spectrogram spectrogram;

  SideListening(InspectRequest request, Progress progress) {
    this.request = request;
    this.progress = progress;
  }

  /** What needs a reader and may fail as reading does. */
  private interface Work {
    void on(SideReader side) throws IOException;
  }

  /** Everything; the first pass tells how far it is, what runs beside it stops when it stops. */
  void run(SideReader side, Crew crew) throws IOException {
    try {
      crew.together(
          () -> first(() -> survey(side, crew)),
          () -> beside(this::walls),
          () -> beside(this::pitch));
      WordSource whole = WholeWords.of(side, survey.levels());
      crew.together(
          () -> first(() -> clicks(whole, crew)),
          () -> beside(this::low),
          () -> beside(this::picture));
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  private void survey(SideReader side, Crew crew) throws IOException {
    AudioFormat format = side.format();
    ProgrammeMeter meter = new ProgrammeMeter(format.sampleRateHz(), format.channels());
    TransferMeters all = new TransferMeters(format, side.frames());
    List<BlockMeter> watches = new ArrayList<>(all.meters());
    if (request.pictures()) {
      field = new WallField(format);
      watches.add((words, samples, count) -> field.accept(samples, count));
    }
    survey = Survey.of(side, crew, progress, meter, watches);
    programme = meter.finish();
    meters = all.finish();
    sound = all;
  }

  /** Work on the calling thread. */
  private interface First {
    void run() throws IOException;
  }

  private void first(First work) {
    try {
      work.run();
    } catch (IOException e) {
      stopped = true;
      throw new UncheckedIOException(e);
    } catch (RuntimeException e) {
      // those beside have not been told
      stopped = true;
      throw e;
    }
  }

  private void beside(Work work) {
    try (SideReader reader = SideFiles.open(request.file())) {
      work.on(reader);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private RangeReader plain(SideReader reader, String step) {
    return new WatchedRanges(new SideChain(List.of()).reader(reader), this::alive, step, 0, 1);
  }

  private void alive(String step, long done, long total) {
    if (stopped) {
      throw new CancellationException("stopped");
    }
  }

  private static SpeedQuestion question() {
    return new SpeedQuestion(
        CONCERT_PITCH_HZ, Double.NaN, Double.NaN, null, HumSource.UNKNOWN, null);
  }

  private void clicks(WordSource whole, Crew crew) throws IOException {
    ClickParameters parameters = ClickParameters.defaults();
    RangeReader read =
        new WatchedRanges(
            new SideChain(List.of()).reader(whole), progress, "looking for clicks", 0, 1);
    capture =
        request.captured().isKnown()
            ? null
            : CaptureAnalyser.analyse(read, parameters, CAPTURE_SECONDS, crew);
    CaptureCurve curve = capture == null ? request.captured() : capture.curve();
    ClickStage stage =
        new ClickStage(
            parameters,
            ClickAnalyser.quickThresholds(read, parameters, curve, THRESHOLD_SECONDS, crew),
            curve);
    AudioFormat format = whole.format();
    long segment = stage.segmentation(format).segmentFrames();
    int segments = (int) Math.max(1, format.frames(CLICK_SECONDS) / segment);
    clicks = SideChain.sample(read, stage, segments, ENOUGH_CLICKS, crew);
    rotation = DiscTurning.of(clicks, format.sampleRateHz(), meters.rotation());
  }

  private void walls(SideReader reader) throws IOException {
    walls = WallAnalyser.analyse(plain(reader, "walls"), WALL_SECONDS);
  }

  private void pitch(SideReader reader) throws IOException {
    speed =
        SpeedAnalyser.analyse(Excerpt.middle(plain(reader, "pitch"), PITCH_SECONDS), question());
  }

  private void low(SideReader reader) throws IOException {
    RangeReader side = plain(reader, "bass");
    LeadInFinding leadIn = survey.leadIn();
    rumble =
        RumbleAnalyser.analyse(
                side, RumbleParameters.defaults(), leadIn.startFrame(), leadIn.endFrame())
            .finding();
    stretches = GrooveStretches.of(side, leadIn, survey.track());
    hum =
        HumAnalyser.analyse(Excerpt.middle(side, HUM_SECONDS), HumParameters.defaults()).finding();
  }

  private void picture(SideReader reader) throws IOException {
    if (request.pictures()) {
      spectrogram =
          Spectrogram.of(
              plain(reader, "drawing")::read,
              reader.format(),
              reader.frames(),
              Pictures.COLUMNS,
              Pictures.SPECTROGRAM_ROWS);
    }
  }

  Survey survey() {
    return survey;
  }

  Programme programme() {
    return programme;
  }

  /** The meters themselves, for pictures. */
  TransferMeters sound() {
    return sound;
  }

  /** Null if no pictures are wanted. */
  WallField field() {
    return field;
  }

  TransferMeters.Result meters() {
    return meters;
  }

  WallFinding walls() {
    return walls;
  }

  SpeedFinding speed() {
    return speed;
  }

  HumFinding hum() {
    return hum;
  }

  RumbleFinding rumble() {
    return rumble;
  }

  GrooveStretches stretches() {
    return stretches;
  }

  /** Null if it was stated. */
  CaptureFinding capture() {
    return capture;
  }

  /** Speed of the turntable by what recurs. */
  RotationFinding rotation() {
    return rotation;
  }

  RepairSample clicks() {
    return clicks;
  }

  /** Null if no pictures are wanted. */
  Spectrogram spectrogram() {
    return spectrogram;
  }
}
