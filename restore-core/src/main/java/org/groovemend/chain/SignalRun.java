package org.groovemend.chain;

import java.io.IOException;
import java.util.List;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.Semaphore;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Crew;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.SignalStage;
import org.groovemend.stage.StageNote;

/** A stage that writes whole segments. */
final class SignalRun extends StageRun<SignalStage.Worker, SignalRun.Treated> {

  /** A segment's samples and what is told of it. */
  record Treated(double[][] samples, List<StageNote> notes) {}

  private final ConcurrentLinkedDeque<double[][]> idleOutputs = new ConcurrentLinkedDeque<>();
  private final SignalWatch watch;
  private final double[][] watched;
  private final int channels;
  private final int most;

  SignalRun(
      SignalStage stage,
      AudioFormat format,
      long sideFrames,
      Crew crew,
      Semaphore slots,
      SignalWatch watch,
      BlockSink output) {
    super(
        stage.segmentation(format),
        format,
        sideFrames,
        crew,
        slots,
        () -> stage.open(format),
        output);
    channels = format.channels();
    most = (int) Math.min(sideFrames, stage.segmentation(format).segmentFrames());
    this.watch = watch;
    watched = watch == null ? null : new double[channels][most];
  }

  @Override
  Treated work(SignalStage.Worker worker, SegmentWindow window) {
    double[][] out = idleOutputs.pollFirst();
    if (out == null) {
      out = new double[channels][most];
    }
    worker.treat(window, out);
    return new Treated(out, worker.notes());
  }

  @Override
  void deliver(long start, long end, Treated treated) throws IOException {
    double[][] out = treated.samples();
    if (watch != null) {
      treated.notes().forEach(watch::note);
      input.copy(start, (int) (end - start), watched, 0);
      watch.block(watched, out, (int) (end - start));
    }
    output.accept(start, out, (int) (end - start));
    idleOutputs.addFirst(out);
  }
}
