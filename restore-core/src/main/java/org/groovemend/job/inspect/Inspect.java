package org.groovemend.job.inspect;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.job.side.Survey;
import org.groovemend.job.side.WholeWords;
import org.groovemend.limits.Finding;
import org.groovemend.limits.Findings;
import org.groovemend.limits.LimitProfile;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Crew;
import org.groovemend.stage.Repair;

/** Says what a transfer is and whether it can be trusted, without changing anything. */
public final class Inspect {

  private Inspect() {}

  /**
   * Reads a transfer and says what it is and how worn, judging nothing; writes nothing.
   *
   * @param captured how the transfer was made, for the click rate; if unknown, its clicks are asked
   * @throws org.groovemend.audio.InputRejectedException if the file cannot be taken
   */
  public static SideInspection run(Path file, CaptureCurve captured, Crew crew, Progress progress)
      throws IOException {
    InspectRequest request = new InspectRequest(file, captured, LimitProfile.open(), false);
    return run(request, crew, progress).side();
  }

  /**
   * What was found, and what the page is drawn from.
   *
   * @param side for people and machines
   * @param listening for the page
   */
  public record Outcome(SideInspection side, InspectionMaterial listening) {}

  /**
   * Reads a transfer and judges it by limits; writes nothing.
   *
   * @throws org.groovemend.audio.InputRejectedException if the file cannot be taken
   */
  public static Outcome run(InspectRequest request, Crew crew, Progress progress)
      throws IOException {
    try (SideReader side = SideFiles.open(request.file())) {
      SideListening heard = new SideListening(request, progress);
      heard.run(side, crew);
      Findings findings = new Findings(request.limits());
      FileFindings.add(findings, side, heard);
      WordFindings.add(findings, side.format(), heard);
      GrooveFindings.add(findings, side.format(), heard);
      DiscFindings.add(findings, side.format(), heard, request.captured());
      SideInspection found = told(side, heard, findings.all(), request.limits().name());
      return new Outcome(found, new InspectionMaterial(heard));
    }
  }

  private static SideInspection told(
      SideReader side, SideListening heard, List<Finding> findings, String limits) {
    AudioFormat format = side.format();
    Survey survey = heard.survey();
    double minutes = format.seconds(heard.clicks().frames()) / 60;
    List<Repair> repairs = heard.clicks().repairs();
    List<Double> byChannel = new ArrayList<>();
    for (int c = 0; c < format.channels(); c++) {
      int channel = c;
      byChannel.add(repairs.stream().filter(r -> r.channel() == channel).count() / minutes);
    }
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
        heard.programme(),
        survey.leadIn(),
        survey.leadIn().found() ? survey.leadIn().levelDbfs() : Double.NaN,
        heard.capture(),
        repairs.size() / minutes,
        byChannel,
        format.seconds(heard.clicks().frames()),
        limits,
        Findings.gravest(findings),
        findings,
        InspectionDetail.of(heard));
  }
}
