package org.groovemend.job.restore;

import java.util.List;
import java.util.Optional;
import org.groovemend.audio.AudioFormat;
import org.groovemend.job.side.LedgerLines;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.listening.Passage;
import org.groovemend.listening.PassageFinder;
import org.groovemend.measure.LevelTrack;
import org.groovemend.report.DiscLayout;
import org.groovemend.report.DiscMarksBuilder;
import org.groovemend.report.DoubtfulEdits;
import org.groovemend.report.EditDensity;
import org.groovemend.report.EditDensityBuilder;
import org.groovemend.report.EditLine;
import org.groovemend.report.Envelope;
import org.groovemend.report.EnvelopeBuilder;
import org.groovemend.report.Figure;
import org.groovemend.report.Pictures;
import org.groovemend.rotation.DiscSpeed;
import org.groovemend.rotation.RotationFinding;

/** Gathers what the page shows of the copy and its edits while the ledger is written. */
final class SideAccount implements Bookkeeping.Onlooker {

  private static final int DOUBTFUL_EDITS = 10;

  private final EnvelopeBuilder envelope;
  private final EditDensityBuilder density;
  private final DoubtfulEdits doubtful = new DoubtfulEdits(DOUBTFUL_EDITS);
  private final RotationFinding rotation;
  private final DiscLayout layout;
  private final DiscMarksBuilder marks;
  private final LevelTrack track;
  private final int[] repairs;
  private final int sampleRateHz;
  private final List<KeptMusic.Meter> meters;
  private final CurvedReference reference;

  /**
   * @param meters compare what they are given before and after
   * @param reference what they are given in place of the transfer, or null for itself
   * @param rotation what recurs once a turn; a picture of the disc is gathered if that is a nominal
   *     speed
   */
  SideAccount(
      AudioFormat format,
      long frames,
      RotationFinding rotation,
      List<KeptMusic.Meter> meters,
      CurvedReference reference) {
    this.rotation = rotation;
    boolean drawn = rotation.found() && DiscSpeed.of(rotation.rpm()).isPresent();
    layout = drawn ? DiscDrawing.layout(frames, format.sampleRateHz(), rotation.rpm()) : null;
    marks = drawn ? new DiscMarksBuilder(layout) : null;
    envelope = new EnvelopeBuilder(format, frames, Pictures.COLUMNS);
    density = new EditDensityBuilder(format, frames, Pictures.EDIT_COLUMNS);
    track = new LevelTrack(format, frames);
    repairs = new int[track.slots()];
    sampleRateHz = format.sampleRateHz();
    this.meters = List.copyOf(meters);
    this.reference = reference;
  }

  @Override
  public void block(double[][] original, double[][] restored, boolean[][] inEdit, int count) {
    envelope.accept(restored, 0, count);
    track.accept(restored, count);
    if (meters.isEmpty()) {
      return;
    }
    double[][] before = reference == null ? original : reference.next(original, inEdit, count);
    for (KeptMusic.Meter meter : meters) {
      meter.places().accept(before, restored, inEdit, count);
    }
  }

  @Override
  public void edit(LedgerEdit edit) {
    density.add(edit.channel(), edit.start(), edit.end());
    repairs[track.slotOf(edit.start())]++;
    if (marks != null) {
      marks.add(DiscDrawing.kind(edit.stage()), edit.start(), edit.statistic());
    }
    doubtful.offer(LedgerLines.edit(edit));
  }

  Envelope envelope() {
    return envelope.build();
  }

  EditDensity density() {
    return density.build();
  }

  List<KeptMusic> kept() {
    return meters.stream().map(KeptMusic.Meter::kept).toList();
  }

  /**
   * Passages to listen to.
   *
   * @param groove where the noise floor was measured, or null
   */
  List<Passage> passages(MusicSpan music, GrooveChange groove) {
    double floor =
        groove == null || !groove.bareGroove()
            ? Double.NaN
            : track.median(groove.after().startFrame(), groove.after().endFrame());
    return PassageFinder.find(
        track,
        repairs,
        sampleRateHz,
        new PassageFinder.Span(music.startFrame(), music.endFrame(), floor));
  }

  RotationFinding rotation() {
    return rotation;
  }

  /** The side as the disc lies, if its speed is certain. */
  Optional<Figure> disc(String side, LeadInFinding leadIn) {
    return marks == null
        ? Optional.empty()
        : Optional.of(
            DiscDrawing.figure(
                DiscDrawing.map(side, layout, false, rotation, DiscDrawing.bare(leadIn)), marks));
  }

  /** The most doubtful edits, the most doubtful first. */
  List<EditLine> doubtful() {
    return doubtful.lines();
  }
}
