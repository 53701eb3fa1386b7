package org.groovemend.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.chain.RepairSample;
import org.groovemend.chain.SideChain;
import org.groovemend.click.CaptureAnalyser;
import org.groovemend.click.CaptureFinding;
import org.groovemend.click.ClickAnalyser;
import org.groovemend.click.ClickParameters;
import org.groovemend.click.ClickStage;
import org.groovemend.measure.ProgrammeMeter;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.Repair;

/** Says what a transfer is, without changing anything. */
public final class Inspect {

  private static final double SAMPLE_SECONDS = 60;

  private Inspect() {}

  /**
   * Reads a transfer and says what it is and how worn; writes nothing.
   *
   * @param captured how the transfer was made, for the click rate; if unknown, its clicks are asked
   * @throws org.groovemend.audio.InputRejectedException if the file cannot be taken
   */
  public static SideInspection run(Path file, CaptureCurve captured, Crew crew, Progress progress)
      throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      AudioFormat format = side.format();
      ProgrammeMeter programme = new ProgrammeMeter(format.sampleRateHz(), format.channels());
      Survey survey = Survey.of(side, crew, progress, programme);
      ClickParameters parameters = ClickParameters.defaults();
      RangeReader read =
          new WatchedRanges(
              new SideChain(List.of()).reader(WholeWords.of(side, survey.levels())),
              progress,
              "looking for clicks",
              0,
              1);
      CaptureFinding capture =
          !captured.isKnown() ? CaptureAnalyser.analyse(read, parameters) : null;
      CaptureCurve curve = capture == null ? captured : capture.curve();
      ClickStage stage =
          new ClickStage(parameters, ClickAnalyser.analyse(read, parameters, curve), curve);
      int segments =
          (int)
              Math.max(
                  1, format.frames(SAMPLE_SECONDS) / stage.segmentation(format).segmentFrames());
      RepairSample sample = SideChain.sample(read, stage, segments);
      double minutes = format.seconds(sample.frames()) / 60;
      List<Double> byChannel = new ArrayList<>();
      for (int c = 0; c < format.channels(); c++) {
        int channel = c;
        long count = sample.repairs().stream().filter(r -> r.channel() == channel).count();
        byChannel.add(count / minutes);
      }
      List<Repair> repairs = sample.repairs();
      List<String> notices = new ArrayList<>(side.notices());
      if (WholeWords.contradicted(format, survey.levels())) {
        notices.add(WholeWords.remark(format, survey.levels()));
      }
      return new SideInspection(
          survey.facts(),
          side.parts(),
          notices,
          format.seconds(side.frames()),
          survey.levels(),
          programme.finish(),
          survey.leadIn(),
          survey.leadIn().found() ? survey.leadIn().levelDbfs() : Double.NaN,
          capture,
          repairs.size() / minutes,
          byChannel,
          format.seconds(sample.frames()));
    }
  }
}
