package org.groovemend.bench;

import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CurveParameters;
import org.groovemend.playback.CurveStage;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** One segment of a 96 kHz stereo side through the curve stage, its context included. */
@State(Scope.Thread)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(2)
public class CurveBenchmark {
  private static final int RATE = 96_000;

  @Param({"riaa", "nab"})
  public String apply;

  @Param({"flat", "coarse-iec"})
  public String undo;

  private SignalStage.Worker worker;
  private SegmentWindow window;
  private double[][] out;

  @Setup(Level.Trial)
  public void prepare() {
    AudioFormat format = AudioFormat.pcm(RATE, 2, 24);
    CurveStage stage =
        new CurveStage(CurveParameters.defaults().withApply(apply).withUndo(undo));
    Segmentation cut = stage.segmentation(format);
    int length = cut.contextBefore() + cut.segmentFrames();
    SplittableRandom random = new SplittableRandom(1);
    double[][] side = new double[2][length];
    for (double[] channel : side) {
      for (int i = 0; i < length; i++) {
        channel[i] = 0.2 * (random.nextDouble() - 0.5);
      }
    }
    worker = stage.open(format);
    window = new SegmentWindow(side, 0, length, cut.contextBefore(), length, length);
    out = new double[2][cut.segmentFrames()];
  }

  @Benchmark
  public Object oneSegment() {
    worker.treat(window, out);
    return out;
  }
}
