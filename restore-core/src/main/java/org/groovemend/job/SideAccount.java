package org.groovemend.job;

import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.report.DoubtfulEdits;
import org.groovemend.report.EditDensity;
import org.groovemend.report.EditDensityBuilder;
import org.groovemend.report.EditLine;
import org.groovemend.report.Envelope;
import org.groovemend.report.EnvelopeBuilder;
import org.groovemend.report.Pictures;

/** Gathers what the page shows of the copy and its edits while the ledger is written. */
final class SideAccount implements Bookkeeping.Onlooker {

  private static final int DOUBTFUL_EDITS = 10;

  private final EnvelopeBuilder envelope;
  private final EditDensityBuilder density;
  private final DoubtfulEdits doubtful = new DoubtfulEdits(DOUBTFUL_EDITS);

  SideAccount(AudioFormat format, long frames) {
    envelope = new EnvelopeBuilder(format, frames, Pictures.COLUMNS);
    density = new EditDensityBuilder(format, frames, Pictures.EDIT_COLUMNS);
  }

  @Override
  public void block(double[][] restored, int count) {
    envelope.accept(restored, 0, count);
  }

  @Override
  public void edit(LedgerEdit edit) {
    density.add(edit.channel(), edit.start(), edit.end());
    doubtful.offer(
        new EditLine(
            edit.stage(),
            edit.channel(),
            edit.start(),
            edit.end(),
            edit.statistic(),
            edit.threshold(),
            edit.method(),
            edit.uncertaintyDbfs()));
  }

  Envelope envelope() {
    return envelope.build();
  }

  EditDensity density() {
    return density.build();
  }

  /** The most doubtful edits, the most doubtful first. */
  List<EditLine> doubtful() {
    return doubtful.lines();
  }
}
