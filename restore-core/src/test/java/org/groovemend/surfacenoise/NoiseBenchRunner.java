package org.groovemend.surfacenoise;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.leadin.LeadInFinder;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;

/**
 * Runs the lead-in finder and the noise stage alone over 24-bit WAV files, for measuring: arguments
 * are one or more pairs of reduction in dB (or reduction:short ms:long ms) and output file, after
 * the input file. Not part of any test.
 */
final class NoiseBenchRunner {

  private NoiseBenchRunner() {}

  public static void main(String[] args) throws IOException {
    Path in = Path.of(args[0]);
    byte[] bytes = Files.readAllBytes(in);
    ByteBuffer b = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    int channels = 0;
    int rate = 0;
    double[][] x = null;
    for (int at = 12; at + 8 <= bytes.length; ) {
      int id = b.getInt(at);
      int size = b.getInt(at + 4);
      if (id == 0x20746d66) { // "fmt "
        channels = b.getShort(at + 10);
        rate = b.getInt(at + 12);
        if (b.getShort(at + 22) != 24) {
          throw new IOException("not 24 bits");
        }
      } else if (id == 0x61746164) { // "data"
        int frames = size / (3 * channels);
        x = new double[channels][frames];
        for (int i = 0, p = at + 8; i < frames; i++) {
          for (int c = 0; c < channels; c++, p += 3) {
            int v = (bytes[p] & 255) | (bytes[p + 1] & 255) << 8 | bytes[p + 2] << 16;
            x[c][i] = v / 8388608.0;
          }
        }
      }
      at += 8 + size + (size & 1);
    }
    AudioFormat format = AudioFormat.pcm(rate, channels, 24);
    int n = x[0].length;
    long t0 = cpu();
    LeadInFinder finder = new LeadInFinder(format, n);
    finder.accept(x, n);
    LeadInFinding found = finder.finish();
    long t1 = cpu();
    System.out.printf(
        Locale.ROOT,
        "lead-in %b %.2f-%.2f s confidence %.2f (%s) runout %s; %.1f ns per sample%n",
        found.found(),
        format.seconds(found.startFrame()),
        format.seconds(found.endFrame()),
        found.confidence(),
        found.reason(),
        found.runOut(),
        (t1 - t0) / (double) n / channels);
    if (!found.found()) {
      found = LeadInFinding.stated(rate / 2, (long) (2.7 * rate), n);
    }
    double[][] side = x;
    RangeReader reader = ArrayRanges.of(rate, side);
    for (int i = 1; i + 1 < args.length; i += 2) {
      String[] how = args[i].split(":");
      NoiseParameters d = NoiseParameters.defaults().withReductionDb(Double.parseDouble(how[0]));
      NoiseParameters p =
          how.length < 2
              ? d
              : new NoiseParameters(
                  d.reductionDb(),
                  Double.parseDouble(how[1]),
                  Double.parseDouble(how[2]),
                  d.shortPriorSmoothing(),
                  d.longPriorSmoothing(),
                  d.priorFloorDb(),
                  d.levelRangeDb(),
                  d.spectrumSmoothingOctaves());
      GrooveNoise grooveNoise = NoiseAnalyser.analyse(reader, found, p);
      NoiseStage stage = new NoiseStage(p, grooveNoise);
      Segmentation seg = stage.segmentation(format);
      SignalStage.Worker worker = stage.open(format);
      long t2 = cpu();
      double[][] y = treat(worker, seg, seg.segmentFrames(), x);
      long t3 = cpu();
      System.out.printf(
          Locale.ROOT,
          "%s dB: %.1f ns per sample, its transforms alone %.1f, spectrum of %d frames, %d rejected%n",
          args[i],
          (t3 - t2) / (double) n / channels,
          transforms(grooveNoise.frameLength(), n)
              + transforms(NoiseFrames.of(p, rate).shortBlocks().grid().length(), n),
          grooveNoise.framesUsed(),
          grooveNoise.framesRejected());
      ByteBuffer o = ByteBuffer.allocate(44 + n * channels * 3).order(ByteOrder.LITTLE_ENDIAN);
      o.putInt(0x46464952)
          .putInt(36 + n * channels * 3)
          .putInt(0x45564157)
          .putInt(0x20746d66)
          .putInt(16);
      o.putShort((short) 1).putShort((short) channels).putInt(rate).putInt(rate * channels * 3);
      o.putShort((short) (channels * 3))
          .putShort((short) 24)
          .putInt(0x61746164)
          .putInt(n * channels * 3);
      for (int j = 0; j < n; j++) {
        for (int c = 0; c < channels; c++) {
          int v = (int) Math.max(-8388608, Math.min(8388607, Math.round(y[c][j] * 8388608.0)));
          o.put((byte) v).put((byte) (v >> 8)).put((byte) (v >> 16));
        }
      }
      Files.write(Path.of(args[i + 1]), o.array());
    }
  }

  /** Processor time of this thread, ns: other work on the machine does not count. */
  private static long cpu() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  /** Bare forward and inverse transforms of one channel, ns per sample. */
  private static double transforms(int length, int samples) {
    RealFft fft = new RealFft(length);
    double[] a = new double[length];
    java.util.Random random = new java.util.Random(1);
    for (int i = 0; i < length; i++) {
      a[i] = random.nextDouble() - 0.5;
    }
    int frames = samples / (length / 4);
    long start = cpu();
    for (int f = 0; f < frames; f++) {
      fft.forward(a);
      fft.inverse(a);
    }
    return (cpu() - start) / (double) frames / (length / 4.0);
  }

  /**
   * Cuts the side as a chain does; {@code segmentFrames} may differ from what the stage asks for.
   */
  static double[][] treat(
      SignalStage.Worker worker, Segmentation seg, int segmentFrames, double[][] x) {
    int n = x[0].length;
    double[][] y = new double[x.length][n];
    double[][] in = new double[x.length][segmentFrames + seg.contextBefore() + seg.contextAfter()];
    double[][] out = new double[x.length][segmentFrames];
    for (long s = 0; s < n; s += segmentFrames) {
      long e = Math.min(n, s + segmentFrames);
      long from = Math.max(0, s - seg.contextBefore());
      long to = Math.min(n, e + seg.contextAfter());
      for (int c = 0; c < x.length; c++) {
        System.arraycopy(x[c], (int) from, in[c], 0, (int) (to - from));
      }
      worker.treat(new SegmentWindow(in, from, (int) (to - from), s, e, n), out);
      for (int c = 0; c < x.length; c++) {
        System.arraycopy(out[c], 0, y[c], (int) s, (int) (e - s));
      }
    }
    return y;
  }
}
