package org.groovemend.surfacenoise;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.rotation.DiscSpeed;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;
import org.groovemend.stage.RangeReader;

/**
 * Learns over the whole side how the level of the groove's noise swings with the turning of the
 * disc.
 *
 * <p>The level is that of the quietest band, frame by frame ({@link LevelTracker}), so it is heard
 * through most music. At each of the nominal speeds of {@link DiscSpeed}, within {@value #NEAR},
 * sines once and twice a turn are fitted to its logarithm in stretches of {@value #BLOCK_SECONDS}
 * s, each with its own phase, so that the speed may be a little off and drift. A swing is believed
 * only if a nominal speed accounts for {@value #CLEARLY} times as much of the wavering as any of
 * the many other speeds that are tried in the same way: music has its own periods, and where it
 * beats strongly no claim is made. What is believed is shrunk by the power that chance gives a fit
 * (mean of the other speeds). Our own.
 */
public final class SwingFinder {
  private static final double NEAR = 0.008;
  private static final double BLOCK_SECONDS = 20;
  private static final double CLEARLY = 2;
  private static final double LEAST_EXPLAINED = 0.1;
  private static final int LEAST_BLOCKS = 2;
  private static final double SLOWEST_HZ = 0.2;
  private static final double FASTEST_HZ = 2;
  private static final double STEP_HZ = 0.5 / BLOCK_SECONDS;
  private static final int REFINEMENT = 8;

  /** Above this the level is music, natural logarithm: the end of the tracker's table is 3. */
  private static final double MUSIC = 2.9;

  /** Below this there is not even groove. */
  private static final double SILENCE = -2.9;

  private final double[] level;
  private final double spacing;
  private final double firstSeconds;
  private final int block;

  private SwingFinder(double[] level, double spacing, double firstSeconds) {
    this.level = level;
    this.spacing = spacing;
    this.firstSeconds = firstSeconds;
    this.block = (int) Math.round(BLOCK_SECONDS / spacing);
  }

  /**
   * Reads the side once, every second frame of the short length.
   *
   * @param side as captured or as any stage leaves it
   * @param noise its groove noise
   * @return null if the side is too short, or no swing stands out of the music
   */
  public static TurnSwing find(RangeReader side, SideNoise noise, NoiseParameters parameters)
      throws IOException {
    AudioFormat format = side.format();
    if (format.seconds(side.frames()) < (LEAST_BLOCKS + 0.5) * BLOCK_SECONDS) {
      return null;
    }
    FrameGrid grid = FrameGrid.of(parameters.shortFrameMilliseconds(), format.sampleRateHz());
    int step = 2 * grid.length();
    double rate = format.sampleRateHz();
    SwingFinder finder =
        new SwingFinder(
            levels(side, noise.atFrameLength(grid.length()), grid, step),
            step / rate,
            0.5 * grid.length() / rate);
    return finder.find(noise);
  }

  private static double[] levels(RangeReader side, SideNoise noise, FrameGrid grid, int step)
      throws IOException {
    int channels = noise.channels();
    int n = (int) ((side.frames() - grid.length()) / step) + 1;
    int batch = 64;
    double[][] samples = new double[channels][(batch - 1) * step + grid.length()];
    double[] window = WindowShape.SQRT_HANN.periodic(grid.length());
    RealFft fft = new RealFft(grid.length());
    double[] work = new double[grid.length()];
    double[] power = new double[grid.bins()];
    LevelTracker tracker = new LevelTracker(grid.bins(), 0);
    double[] statistic = new double[tracker.bands()];
    LocalNoise local = new LocalNoise(noise, grid);
    double[] level = new double[n];
    for (int first = 0; first < n; first += batch) {
      int count = Math.min(batch, n - first);
      side.read((long) first * step, (count - 1) * step + grid.length(), samples);
      for (int i = 0; i < count; i++) {
        Arrays.fill(statistic, 0);
        local.moveTo((long) (first + i) * step / grid.hop());
        for (int c = 0; c < channels; c++) {
          for (int j = 0; j < work.length; j++) {
            work[j] = samples[c][i * step + j] * window[j];
          }
          fft.forward(work);
          Spectra.power(work, power);
          double[] inverse = local.inverse(c);
          for (int k = 0; k < power.length; k++) {
            power[k] *= inverse[k];
          }
          tracker.add(power, 1.0 / channels, statistic);
        }
        double heard = StrictMath.log(LevelTracker.quietest(statistic));
        level[first + i] = heard > SILENCE ? heard : Double.POSITIVE_INFINITY;
      }
    }
    return level;
  }

  private TurnSwing find(SideNoise noise) {
    double best = 0;
    double bestHz = 0;
    for (DiscSpeed speed : DiscSpeed.values()) {
      for (int i = -REFINEMENT; i <= REFINEMENT; i++) {
        double hz = speed.rpm() / 60 * (1 + NEAR * i / REFINEMENT);
        double share = explained(hz);
        if (share > best) {
          best = share;
          bestHz = hz;
        }
      }
    }
    double elsewhere = 0;
    double chance = 0;
    int tried = 0;
    for (double hz = SLOWEST_HZ; hz < FASTEST_HZ; hz += STEP_HZ) {
      if (Math.abs(hz - bestHz) > 2 * STEP_HZ
          && Math.abs(hz - 2 * bestHz) > 2 * STEP_HZ
          && Math.abs(2 * hz - bestHz) > 4 * STEP_HZ) {
        double share = explained(hz);
        elsewhere = Math.max(elsewhere, share);
        chance += share;
        tried++;
      }
    }
    if (best < LEAST_EXPLAINED || best < CLEARLY * elsewhere) {
      return null;
    }
    TurnSwing swing = follow(bestHz, best, elsewhere, chance / tried);
    return agrees(swing, noise.leadIn()) ? swing : null;
  }

  /** Share of the squares about straight lines that sines once a turn account for. */
  private double explained(double hz) {
    double total = 0;
    double rest = 0;
    for (int start = 0; start + block / 2 < level.length; start += block) {
      int end = Math.min(level.length, start + block);
      HarmonicFit fit = HarmonicFit.of(level, start, end, MUSIC, i -> seconds(i) * hz);
      if (fit != null) {
        total += fit.total();
        rest += fit.restOfOnce();
      }
    }
    return total > 0 ? 1 - rest / total : 0;
  }

  private double seconds(int i) {
    return firstSeconds + i * spacing;
  }

  /** Stretches overlap by half; a stretch that is all music takes over from the one before. */
  private TurnSwing follow(double hz, double explained, double elsewhere, double chance) {
    int hop = block / 2;
    int knots = Math.max(1, (level.length - block) / hop + 1);
    double[][] harmonics = new double[knots][4];
    double[] last = new double[4];
    for (int j = 0; j < knots; j++) {
      int end = Math.min(level.length, j * hop + block);
      HarmonicFit fit = HarmonicFit.ofTheLower(level, j * hop, end, MUSIC, i -> seconds(i) * hz);
      if (fit != null) {
        double share = 1 - fit.rest() / fit.total();
        double kept = Math.max(0, 1 - chance / Math.max(share, 1e-9));
        for (int k = 0; k < 4; k++) {
          last[k] = kept * fit.harmonics()[k];
        }
      }
      harmonics[j] = last.clone();
    }
    return new TurnSwing(
        1 / hz, explained, elsewhere, seconds(block / 2), hop * spacing, harmonics);
  }

  /** The bare groove must swing with it. */
  private boolean agrees(TurnSwing swing, GrooveNoise bare) {
    double rate = bare.sampleRateHz();
    int from = Math.max(0, (int) Math.ceil((bare.startFrame() / rate - firstSeconds) / spacing));
    int to =
        Math.min(level.length, (int) Math.floor((bare.endFrame() / rate - firstSeconds) / spacing));
    double[] with = new double[2];
    double[] without = new double[2];
    int n = 0;
    for (int i = from; i < to; i++) {
      if (level[i] >= MUSIC) {
        continue;
      }
      n++;
      double rest = level[i] - swing.logAt(seconds(i));
      with[0] += rest;
      with[1] += rest * rest;
      without[0] += level[i];
      without[1] += level[i] * level[i];
    }
    return n < 4 || with[1] - with[0] * with[0] / n <= without[1] - without[0] * without[0] / n;
  }
}
