package org.groovemend.surfacenoise;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.StageNotPossibleException;

/**
 * Takes the noise spectrum from the groove-only stretch: the mean power of overlapped windowed
 * frames (P. D. Welch, IEEE Trans. Audio Electroacoustics 15(2), 1967), never the mean of decibels,
 * which would be 2.5 dB low.
 */
public final class NoiseAnalyser {

  /** Longest stretch used; of a longer one the end, which is nearest to the music. */
  static final double LONGEST_SECONDS = 30;

  /**
   * A frame is left out if more than this share of its bands stands out by more than this power
   * ratio.
   */
  private static final double BAND_SHARE = 0.15;

  private static final double BAND_RATIO = 2.5;

  /**
   * Standard deviation counts 0.426 independent frames for each at three quarters overlap of this
   * window.
   */
  private static final double INDEPENDENT_SHARE = 0.425787;

  /**
   * Level swinging by 25 % once and 10 % twice a turn makes the statistic 1.15; a little more is
   * chance.
   */
  private static final double TURNING_EXCESS = 0.25;

  private static final long LEAST_FRAMES = 4;

  /** Lines of this window that count as one independent line: its noise bandwidth, 1.23. */
  private static final double LINES_ALIKE = 1.2337;

  /** Most that doubt adds to the noise, as a power ratio. */
  private static final double MOST_DOUBT = 2;

  private static final double LEAST_POWER = 1e-30;

  private NoiseAnalyser() {}

  /**
   * Reads the stretch twice.
   *
   * @param side the side as the stages before leave it
   * @param leadIn the stretch
   * @throws StageNotPossibleException if none was found or it is shorter than four frames of half
   *     the length; the message is a sentence for people
   */
  public static GrooveNoise analyse(
      RangeReader side, LeadInFinding leadIn, NoiseParameters parameters) throws IOException {
    if (!leadIn.found()) {
      throw new StageNotPossibleException(
          "there is no noise spectrum without a groove-only stretch: " + leadIn.reason());
    }
    AudioFormat format = side.format();
    FrameGrid wanted = NoiseFrames.longGrid(parameters, format.sampleRateHz());
    long end = Math.min(leadIn.endFrame(), side.frames());
    long start = Math.max(leadIn.startFrame(), end - format.frames(LONGEST_SECONDS));
    // a short stretch is better heard with frames of half the length than not at all
    FrameGrid grid =
        end - start < LEAST_FRAMES * wanted.length() ? new FrameGrid(wanted.length() / 2) : wanted;
    if (end - start < LEAST_FRAMES * grid.length()) {
      throw new StageNotPossibleException(
          String.format(
              java.util.Locale.ROOT,
              "the groove-only stretch from %.3f to %.3f s is too short for a noise spectrum: state one of at least %.2f s",
              format.seconds(leadIn.startFrame()),
              format.seconds(leadIn.endFrame()),
              format.seconds(LEAST_FRAMES * grid.length())));
    }
    int frames = (int) ((end - start - grid.length()) / grid.hop()) + 1;
    Bands bands = Bands.over(grid.bins(), 24, 3);
    double[][] bandPower = new double[frames][bands.count() * format.channels()];
    pass(
        side,
        grid,
        start,
        frames,
        (f, c, power) -> bands.sums(power, bandPower[f], c * bands.count()));
    boolean[] used = unremarkable(bandPower);
    double[][] mean = new double[format.channels()][grid.bins()];
    double[][] square = new double[format.channels()][grid.bins()];
    int[] count = new int[1];
    pass(
        side,
        grid,
        start,
        frames,
        (f, c, power) -> {
          if (used[f]) {
            count[0] += c == 0 ? 1 : 0;
            for (int k = 0; k < power.length; k++) {
              mean[c][k] += power[k];
              square[c][k] += power[k] * power[k];
            }
          }
        });
    for (double[] m : mean) {
      for (int k = 0; k < m.length; k++) {
        m[k] = Math.max(m[k] / count[0], LEAST_POWER);
      }
    }
    double[][] smooth = new double[mean.length][];
    double[][] unsteady = new double[mean.length][];
    for (int c = 0; c < mean.length; c++) {
      unsteady[c] = unsteadiness(mean[c], square[c], count[0]);
      smooth[c] = SpectrumSmoothing.smooth(mean[c], parameters.spectrumSmoothingOctaves());
      allowForDoubt(
          unsteady[c], count[0] * INDEPENDENT_SHARE, parameters.spectrumSmoothingOctaves());
    }
    double uncertaintyDb = 10 / StrictMath.log(10) / Math.sqrt(count[0] * INDEPENDENT_SHARE);
    GrooveNoise noise =
        new GrooveNoise(
            format.sampleRateHz(),
            grid.length(),
            start,
            end,
            count[0],
            frames - count[0],
            uncertaintyDb,
            smooth,
            unsteady);
    return grid.length() == wanted.length() ? noise : noise.atTwiceTheFrameLength();
  }

  /**
   * The like of the stretch behind the music; of a longer one the beginning, which is nearest to
   * it.
   *
   * @return null if there is none or it is too short
   */
  public static GrooveNoise analyseRunOut(
      RangeReader side, LeadInFinding found, NoiseParameters parameters) throws IOException {
    LeadInFinding.RunOut runOut = found.runOut();
    if (runOut == null) {
      return null;
    }
    long longest = runOut.startFrame() + side.format().frames(LONGEST_SECONDS);
    try {
      return analyse(
          side,
          LeadInFinding.stated(
              runOut.startFrame(), Math.min(runOut.endFrame(), longest), side.frames()),
          parameters);
    } catch (StageNotPossibleException tooShort) {
      return null;
    }
  }

  /**
   * Mean square of the power over twice the squared mean: 1 for steady Gaussian noise, else the
   * power-weighted over the plain mean of a wavering level. What the turning of the disc accounts
   * for is taken off, since the stage follows that itself; averaged over neighbouring lines, as the
   * statistic scatters.
   */
  private static double[] unsteadiness(double[] mean, double[] square, int count) {
    int n = mean.length;
    double[] raw = new double[n];
    for (int k = 0; k < n; k++) {
      double gaussian = k == 0 || k == n - 1 ? 3 : 2; // these two lines are real
      raw[k] = square[k] / count / (gaussian * mean[k] * mean[k]);
    }
    double[] out = new double[n];
    for (int k = 0; k < n; k++) {
      int reach = Math.max(2, k / 8);
      int low = Math.max(0, k - reach);
      int high = Math.min(n - 1, k + reach);
      double sum = 0;
      for (int j = low; j <= high; j++) {
        sum += raw[j];
      }
      out[k] = Math.max(1, sum / (high - low + 1) - TURNING_EXCESS);
    }
    return out;
  }

  /**
   * A mean of n independent powers of noise is gamma distributed about the true power, which is
   * then expected to be n / (n - 1) times that mean (posterior mean under Jeffreys' prior for a
   * scale; Box and Tiao, Bayesian Inference in Statistical Analysis, 1973). So a short stretch is
   * taken for a little more noise than it shows, most where few lines are smoothed together.
   */
  private static void allowForDoubt(double[] unsteady, double independentFrames, double octaves) {
    double share = StrictMath.pow(2, octaves / 2) - StrictMath.pow(2, -octaves / 2);
    for (int k = 0; k < unsteady.length; k++) {
      double n = independentFrames * Math.max(1, share * k / LINES_ALIKE);
      unsteady[k] *= Math.min(MOST_DOUBT, n / Math.max(n - 1, 1e-3));
    }
  }

  /** What is done with the power spectrum of each frame and channel. */
  private interface Sink {
    void accept(int frame, int channel, double[] power);
  }

  private static void pass(RangeReader side, FrameGrid grid, long start, int frames, Sink sink)
      throws IOException {
    int channels = side.format().channels();
    int batch = 64;
    double[][] samples = new double[channels][grid.length() + (batch - 1) * grid.hop()];
    double[] window = WindowShape.SQRT_HANN.periodic(grid.length());
    RealFft fft = new RealFft(grid.length());
    double[] work = new double[grid.length()];
    double[] power = new double[grid.bins()];
    for (int first = 0; first < frames; first += batch) {
      int n = Math.min(batch, frames - first);
      side.read(start + (long) first * grid.hop(), grid.length() + (n - 1) * grid.hop(), samples);
      for (int i = 0; i < n; i++) {
        for (int c = 0; c < channels; c++) {
          for (int j = 0; j < work.length; j++) {
            work[j] = samples[c][i * grid.hop() + j] * window[j];
          }
          fft.forward(work);
          Spectra.power(work, power);
          sink.accept(first + i, c, power);
        }
      }
    }
  }

  /**
   * Marks frames without left-over clicks; at least half always remain, since the comparison is
   * with the median.
   */
  private static boolean[] unremarkable(double[][] bandPower) {
    int frames = bandPower.length;
    int bands = bandPower[0].length;
    int[] over = new int[frames];
    double[] column = new double[frames];
    for (int b = 0; b < bands; b++) {
      for (int f = 0; f < frames; f++) {
        column[f] = bandPower[f][b];
      }
      Arrays.sort(column);
      double limit = BAND_RATIO * column[(frames - 1) / 2];
      for (int f = 0; f < frames; f++) {
        over[f] += bandPower[f][b] > limit ? 1 : 0;
      }
    }
    boolean[] used = new boolean[frames];
    int left = 0;
    for (int f = 0; f < frames; f++) {
      used[f] = over[f] <= BAND_SHARE * bands;
      left += used[f] ? 1 : 0;
    }
    if (left == 0) {
      Arrays.fill(used, true);
    }
    return used;
  }
}
