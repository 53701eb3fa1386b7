package org.groovemend.thump;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SegmentWindow;

/** One thread's share of the work. What it needs is made when it is first needed. */
final class ThumpWorker implements RepairStage.Worker {
  private final ThumpStage stage;
  private final ThumpParameters parameters;
  private final ThumpGeometry g;
  private final int channels;
  private ThumpFinder finder;
  private ThumpRemoval removal;

  ThumpWorker(ThumpStage stage, AudioFormat format) {
    this.stage = stage;
    this.parameters = stage.parameters();
    this.g = ThumpGeometry.of(parameters, format.sampleRateHz());
    this.channels = format.channels();
  }

  @Override
  public List<Repair> repair(SegmentWindow w) {
    List<Repair> repairs = new ArrayList<>();
    for (Judged j : judge(w)) {
      if (j.decibans() >= parameters.evidenceDecibans()) {
        if (removal == null) {
          removal = new ThumpRemoval(g, parameters.evidenceDecibans());
        }
        for (int c = 0; c < w.channels(); c++) {
          removal.add(w, j, c, repairs);
        }
      }
    }
    repairs.sort(
        (p, q) ->
            p.start() != q.start()
                ? Long.compare(p.start(), q.start())
                : p.channel() - q.channel());
    return repairs;
  }

  /** All places whose repair would begin within the segment or hardly outside. */
  List<Judged> judge(SegmentWindow w) {
    if (parameters.isNeutral() || g.instantsOf(w) < ThumpEstimator.LEAST_INSTANTS) {
      return List.of();
    }
    if (finder == null) {
      finder = new ThumpFinder(g, stage.shapes(g), parameters.evidenceDecibans(), channels);
    }
    return finder.judge(w);
  }
}
