package org.groovemend.chain;

import java.io.IOException;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.Semaphore;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Crew;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.SignalStage;

/** A stage that writes whole segments. */
final class SignalRun extends StageRun<SignalStage.Worker, double[][]> {

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
  double[][] work(SignalStage.Worker worker, SegmentWindow window) {
    double[][] out = idleOutputs.pollFirst();
    if (out == null) {
      out = new double[channels][most];
    }
    worker.treat(window, out);
    return out;
  }

  @Override
  void deliver(long start, long end, double[][] out) throws IOException {
    if (watch != null) {
      input.copy(start, (int) (end - start), watched, 0);
      watch.block(watched, out, (int) (end - start));
    }
    output.accept(start, out, (int) (end - start));
    idleOutputs.addFirst(out);
  }
}
