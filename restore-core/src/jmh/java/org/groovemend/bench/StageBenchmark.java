package org.groovemend.bench;

import java.io.IOException;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.groovemend.audio.AudioFormat;
import org.groovemend.click.ClickAnalyser;
import org.groovemend.click.ClickParameters;
import org.groovemend.click.ClickStage;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
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

/** One segment of a 96 kHz stereo side through the click stage. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 3)
@Measurement(iterations = 5, time = 3)
@Fork(2)
public class StageBenchmark {

  private static final int RATE = 96_000;
  private static final int FRAMES = 12 * RATE;

  /** Clicks added for each second and channel. */
  @Param({"0", "5"})
  public int clicksPerSecond;

  private final AudioFormat format = AudioFormat.pcm(RATE, 2, 24);
  private final double[][] side = new double[2][FRAMES];
  private RepairStage.Worker clicks;
  private SegmentWindow clickWindow;

  @Setup(Level.Trial)
  public void prepare() throws IOException {
    SplittableRandom random = new SplittableRandom(1);
    for (int c = 0; c < 2; c++) {
      double low = 0;
      for (int i = 0; i < FRAMES; i++) {
        double white = random.nextDouble() + random.nextDouble() - 1;
        low += 0.05 * (white - low);
        double tone = i < 3 * RATE ? 0 : 0.1 * Math.sin(i * 0.031) + 0.07 * Math.sin(i * 0.0713);
        side[c][i] = tone + 0.004 * white + 0.01 * low;
      }
      for (int k = 0; k < clicksPerSecond * FRAMES / RATE; k++) {
        int at = random.nextInt(FRAMES - 100);
        for (int i = 0; i < 40; i++) {
          side[c][at + i] += 0.4 * Math.exp(-i / 8.0) * Math.cos(i * 0.8);
        }
      }
    }
    RangeReader reader = new ArrayRanges(format, side);
    ClickStage clickStage =
        new ClickStage(
            ClickParameters.defaults(),
            ClickAnalyser.analyse(reader, ClickParameters.defaults(), CaptureCurve.FLAT),
            CaptureCurve.FLAT);
    clicks = clickStage.open(format);
    clickWindow = window(clickStage.segmentation(format));
  }

  private SegmentWindow window(Segmentation cut) {
    long start = cut.segmentFrames() < FRAMES / 2 ? (long) (FRAMES / 2) / cut.segmentFrames() * cut.segmentFrames() : 0;
    long end = Math.min(FRAMES, start + cut.segmentFrames());
    int first = (int) Math.max(0, start - cut.contextBefore());
    int length = (int) Math.min(FRAMES, end + cut.contextAfter()) - first;
    double[][] part = new double[2][length];
    for (int c = 0; c < 2; c++) {
      System.arraycopy(side[c], first, part[c], 0, length);
    }
    return new SegmentWindow(part, first, length, start, end, FRAMES);
  }

  @Benchmark
  public Object clicksOneSegment() {
    return clicks.repair(clickWindow);
  }
}
