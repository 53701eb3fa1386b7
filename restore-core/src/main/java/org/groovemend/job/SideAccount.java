package org.groovemend.job;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import org.groovemend.audio.AudioFormat;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.report.EditDensity;
import org.groovemend.report.EditDensityBuilder;
import org.groovemend.report.Envelope;
import org.groovemend.report.EnvelopeBuilder;
import org.groovemend.report.Pictures;

/** Gathers what the page shows of the copy and its edits while the ledger is written. */
final class SideAccount implements Bookkeeping.Onlooker {

  static final int DOUBTFUL_EDITS = 10;

  /** An edit without its samples. */
  record EditFacts(
      int channel,
      long start,
      long end,
      String stage,
      double statistic,
      double threshold,
      double uncertaintyDbfs) {

    /** How clearly the evidence exceeded the threshold; the smaller, the more doubtful. */
    double margin() {
      return statistic / threshold;
    }
  }

  private final EnvelopeBuilder envelope;
  private final EditDensityBuilder density;
  private final PriorityQueue<EditFacts> doubtful =
      new PriorityQueue<>(Comparator.comparingDouble(EditFacts::margin).reversed());

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
    doubtful.add(
        new EditFacts(
            edit.channel(),
            edit.start(),
            edit.end(),
            edit.stage(),
            edit.statistic(),
            edit.threshold(),
            edit.uncertaintyDbfs()));
    if (doubtful.size() > DOUBTFUL_EDITS) {
      doubtful.poll();
    }
  }

  Envelope envelope() {
    return envelope.build();
  }

  EditDensity density() {
    return density.build();
  }

  /** The most doubtful edits, the most doubtful first. */
  List<EditFacts> doubtful() {
    List<EditFacts> list = new ArrayList<>(doubtful);
    list.sort(Comparator.comparingDouble(EditFacts::margin));
    return list;
  }
}
