package org.groovemend.bench;

import java.io.IOException;
import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.groovemend.audio.AudioFormat;
import org.groovemend.hum.HumAnalyser;
import org.groovemend.hum.HumParameters;
import org.groovemend.hum.HumStage;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.rumble.RumbleAnalyser;
import org.groovemend.rumble.RumbleParameters;
import org.groovemend.rumble.RumbleStage;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;
import org.groovemend.surfacenoise.NoiseAnalyser;
import org.groovemend.surfacenoise.NoiseParameters;
import org.groovemend.surfacenoise.NoiseStage;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.visnow.jlargearrays.ConcurrencyUtils;

/**
 * One segment of a 96 kHz stereo side through the noise, hum and rumble stages, and the bare
 * transforms that the noise stage needs for the same samples.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 3)
@Measurement(iterations = 5, time = 3)
@Fork(2)
public class SignalStageBenchmark {

  private static final int RATE = 96_000;
  private static final int FRAMES = 20 * RATE;
  private static final int LEAD_IN = 3 * RATE;

  /** Lengths of the noise stage at this rate, samples, and their share of a frame between two. */
  private static final int SHORT = 2048;

  private static final int LONG = 16_384;
  private static final int OVERLAP = 4;

  private final AudioFormat format = AudioFormat.pcm(RATE, 2, 24);
  private final double[][] side = new double[2][FRAMES];
  private OneSegment noise;
  private OneSegment hum;
  private OneSegment rumble;
  private RealFft shortFft;
  private RealFft longFft;
  private double[] shortFrame;
  private double[] longFrame;
  private double[] compared;

  @Setup(Level.Trial)
  public void prepare() throws IOException {
    ConcurrencyUtils.setNumberOfThreads(1); // as the command line does: long transforms would use all cores
    SplittableRandom random = new SplittableRandom(1);
    for (int c = 0; c < 2; c++) {
      double low = 0;
      for (int i = 0; i < FRAMES; i++) {
        double white = random.nextDouble() + random.nextDouble() - 1;
        low += 0.05 * (white - low);
        double tone = i < LEAD_IN ? 0 : 0.1 * Math.sin(i * 0.031) + 0.07 * Math.sin(i * 0.0713);
        double mains = 0.01 * Math.sin(2 * Math.PI * 50 * i / RATE);
        side[c][i] = tone + mains + 0.004 * white + 0.01 * low;
      }
    }
    RangeReader reader = new ArrayRanges(format, side);
    NoiseParameters parameters = NoiseParameters.defaults();
    noise =
        new OneSegment(
            new NoiseStage(
                parameters,
                NoiseAnalyser.analyse(
                    reader, LeadInFinding.stated(0, LEAD_IN, FRAMES), parameters)));
    HumStage humStage = HumAnalyser.analyse(reader, HumParameters.defaults());
    if (humStage.neutral()) {
      throw new IllegalStateException("no hum was found: the figure would be that of a copy");
    }
    hum = new OneSegment(humStage);
    RumbleStage rumbleStage =
        RumbleAnalyser.analyse(reader, RumbleParameters.defaults(), 0, LEAD_IN);
    if (rumbleStage.neutral()) {
      throw new IllegalStateException("nothing is taken out: the figure would be that of a copy");
    }
    rumble = new OneSegment(rumbleStage);
    shortFft = new RealFft(SHORT);
    longFft = new RealFft(LONG);
    shortFrame = Arrays.copyOfRange(side[0], LEAD_IN, LEAD_IN + SHORT);
    compared = new double[SHORT];
    longFrame = Arrays.copyOfRange(side[0], LEAD_IN, LEAD_IN + LONG);
  }

  @Benchmark
  public Object noise() {
    return noise.treat();
  }

  /** The lengths there and back, and the short one there once more for the comparison. */
  @Benchmark
  public Object bareTransformsOfNoise() {
    int samples = 2 * noise.samples();
    for (int i = 0; i < samples / (LONG / OVERLAP); i++) {
      longFft.forward(longFrame);
      longFft.inverse(longFrame);
    }
    for (int i = 0; i < samples / (SHORT / OVERLAP); i++) {
      shortFft.forward(shortFrame);
      shortFft.inverse(shortFrame);
      System.arraycopy(shortFrame, 0, compared, 0, SHORT); // or it would grow without end
      shortFft.forward(compared);
    }
    return shortFrame;
  }

  @Benchmark
  public Object hum() {
    return hum.treat();
  }

  @Benchmark
  public Object rumble() {
    return rumble.treat();
  }

  /** A segment from the midst of the side with all its context. */
  private final class OneSegment {
    private final SignalStage.Worker worker;
    private final SegmentWindow window;
    private final double[][] out;

    OneSegment(SignalStage stage) {
      Segmentation cut = stage.segmentation(format);
      int length = Math.min(cut.segmentFrames(), FRAMES);
      long start = (long) (FRAMES / 2 / length) * length;
      long end = Math.min(FRAMES, start + length);
      int first = (int) Math.max(0, start - cut.contextBefore());
      int count = (int) Math.min(FRAMES, end + cut.contextAfter()) - first;
      double[][] part = new double[2][count];
      for (int c = 0; c < 2; c++) {
        System.arraycopy(side[c], first, part[c], 0, count);
      }
      worker = stage.open(format);
      window = new SegmentWindow(part, first, count, start, end, FRAMES);
      out = new double[2][length];
      System.out.printf("%s: %.2f s%n", stage.parameters().stage(), samples() / (double) RATE);
    }

    int samples() {
      return (int) (window.segmentEnd() - window.segmentStart());
    }

    Object treat() {
      worker.treat(window, out);
      return out;
    }
  }
}
