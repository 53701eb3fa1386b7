package org.groovemend.simulate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.fft.RealFft;

/**
 * Invented sides of several bands for tests: groove noise of two walls, clicks, scratches that run
 * through gaps, rumble, hum, groove echo; music of many kinds with hard and soft starts, fades,
 * decays, quiet passages; live joins with applause.
 *
 * <p>What is true is known from the parts before they are added: a band begins where its own sound
 * is first as strong as the steady noise in some half octave.
 */
public final class BandedSides {
  public static final int RATE = 44_100;
  private static final double POOL_SECONDS = 14;
  private static final int CELL = 1024;
  private static final int HOP = 256;
  private static final int RUN = 3;

  private final List<double[][]> pool = new ArrayList<>();
  private final double[][] applause;
  private final double[] window = new double[CELL];
  private final RealFft fft = new RealFft(CELL);

  /**
   * A place where one band ends and the next begins.
   *
   * @param end frame at which the band before is last as strong as the noise
   * @param onset frame at which the next one first is
   * @param live true if people clap all the way
   */
  public record Join(long end, long onset, boolean live) {}

  /**
   * A side.
   *
   * @param samples planar, two walls
   * @param first onset of the first band
   * @param joins between bands, in order
   * @param last end of the last band
   * @param heard for every {@value #HOP} frames, how far the music and the applause are above the
   *     steady noise in the half octave in which they are most, dB
   * @param words what is peculiar, for tables
   */
  public record Side(
      double[][] samples, long first, List<Join> joins, long last, float[] heard, String words) {
    public Side {
      joins = List.copyOf(joins);
    }

    /** Share of a stretch in which music is as strong as the noise in some half octave. */
    public double shareHeard(long from, long to) {
      int n = 0;
      int heardCells = 0;
      for (int i = (int) (from / HOP); i < to / HOP && i < heard.length; i++) {
        n++;
        heardCells += heard[i] > 0 ? 1 : 0;
      }
      return n == 0 ? 0 : heardCells / (double) n;
    }

    public boolean live() {
      return joins.stream().anyMatch(Join::live);
    }
  }

  /** Plays the music that all sides are put together from; takes some seconds. */
  public BandedSides(long seed) {
    for (RestraintPiece piece :
        List.of(
            RestraintPiece.HARPSICHORD,
            RestraintPiece.MUTED_BRASS,
            RestraintPiece.DRUM_KIT,
            RestraintPiece.CLOSE_SPEECH)) {
      pool.add(piece.play(RATE, POOL_SECONDS, seed));
    }
    Chance chance = new Chance(seed).fork(9);
    double[] tune = Band.play(RATE, POOL_SECONDS, chance.fork(1));
    normalise(new double[][] {tune});
    pool.add(new double[][] {tune, tune});
    for (int k = 0; k < 3; k++) {
      pool.add(strings(chance.fork(20 + k)));
    }
    applause = RestraintPiece.APPLAUSE.play(RATE, POOL_SECONDS, seed);
    for (int i = 0; i < CELL; i++) {
      window[i] = 0.5 - 0.5 * StrictMath.cos(2 * Math.PI * i / CELL);
    }
  }

  /** Bowed chords, soft to start, few overtones: what a noise test finds hardest. */
  private static double[][] strings(Chance chance) {
    int frames = (int) (POOL_SECONDS * RATE);
    double[][] out = new double[2][frames];
    double at = 0;
    while (at < POOL_SECONDS - 0.5) {
      double held = chance.uniform(1.2, 3.5);
      int notes = 1 + (int) chance.uniform(0, 3);
      for (int k = 0; k < notes; k++) {
        double hz = 110 * StrictMath.pow(2, Math.floor(chance.uniform(0, 30)) / 12);
        double attack = chance.uniform(0.08, 0.4);
        double pan = chance.uniform(0.3, 0.7);
        double vibrato = chance.uniform(4.5, 6);
        int count = (int) Math.min(frames - at * RATE, (held + 0.3) * RATE);
        double phase = 0;
        for (int i = 0; i < count; i++) {
          double t = i / (double) RATE;
          double level = Math.min(1, t / attack) * Math.min(1, (held + 0.3 - t) / 0.3);
          phase +=
              2 * Math.PI * hz * (1 + 0.004 * StrictMath.sin(2 * Math.PI * vibrato * t)) / RATE;
          double y =
              level
                  * (StrictMath.sin(phase)
                      + 0.5 * StrictMath.sin(2 * phase)
                      + 0.22 * StrictMath.sin(3 * phase)
                      + 0.08 * StrictMath.sin(5 * phase));
          out[0][(int) (at * RATE) + i] += (1 - pan) * y;
          out[1][(int) (at * RATE) + i] += pan * y;
        }
      }
      at += held;
    }
    normalise(out);
    return out;
  }

  private static void normalise(double[][] x) {
    double peak = 0;
    for (double[] channel : x) {
      for (double v : channel) {
        peak = Math.max(peak, Math.abs(v));
      }
    }
    for (double[] channel : x) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] /= peak;
      }
    }
  }

  /**
   * A side of its own for every seed.
   *
   * @param liveShare chance that a join is a live one
   */
  public Side side(long seed, double liveShare) {
    Chance chance = new Chance(seed);
    int bands = 2 + (int) chance.uniform(0, 3);
    double drop = chance.uniform(0.2, 0.8);
    double at = drop + chance.uniform(0.6, 4);
    double[][] starts = new double[bands][];
    boolean[] live = new boolean[bands];
    Chance plan = chance.fork(1);
    for (int b = 0; b < bands; b++) {
      double length = plan.uniform(6, 11);
      live[b] = b > 0 && plan.uniform() < liveShare;
      if (b > 0) {
        double gap = live[b] ? plan.uniform(4, 7) : plan.logUniform(2, 6);
        at = starts[b - 1][1] + gap;
      }
      starts[b] = new double[] {at, at + length};
    }
    double lift = starts[bands - 1][1] + plan.uniform(2, 6);
    int frames = (int) ((lift + plan.uniform(0.3, 1)) * RATE);
    double[][] noise = noise(frames, (int) (drop * RATE), (int) (lift * RATE), chance.fork(2));
    double under = rms(noise, (int) ((drop + 0.4) * RATE), (int) ((lift - 0.1) * RATE));
    double[] steady = steady(noise, (int) ((drop + 0.4) * RATE), (int) ((lift - 0.1) * RATE));
    StringBuilder words = new StringBuilder();
    double[][] all = new double[2][frames];
    long[] onset = new long[bands];
    long[] end = new long[bands];
    double loudest = StrictMath.pow(10, plan.uniform(-14, -6) / 20);
    for (int b = 0; b < bands; b++) {
      boolean beforeLive = b + 1 < bands && live[b + 1];
      double[][] sound =
          band(
              frames,
              starts[b][0],
              starts[b][1],
              loudest * StrictMath.pow(10, plan.uniform(-8, 0) / 20),
              live[b],
              beforeLive,
              under,
              chance.fork(10 + b),
              words);
      onset[b] = audible(sound, steady, (int) (starts[b][0] * RATE), 1);
      end[b] = audible(sound, steady, frames - CELL - 1, -1);
      add(all, sound, 1);
      if (live[b]) {
        double[][] claps =
            claps(frames, starts[b - 1][1], starts[b][0], loudest, under, chance.fork(30));
        add(all, claps, 1);
        words.append("live ");
      }
    }
    float[] heard = heard(all, steady);
    if (plan.uniform() < 0.25) {
      echo(all, plan.uniform(-62, -52));
      words.append("echo ");
    }
    add(all, noise, 1);
    damage(all, drop, lift, chance.fork(3), words);
    List<Join> joins = new ArrayList<>();
    for (int b = 1; b < bands; b++) {
      joins.add(new Join(live[b] ? onset[b] : end[b - 1], onset[b], live[b]));
    }
    return new Side(all, onset[0], joins, end[bands - 1], heard, words.toString().strip());
  }

  private static double rms(double[][] x, int from, int to) {
    double sum = 0;
    for (double[] channel : x) {
      for (int i = from; i < to; i++) {
        sum += channel[i] * channel[i];
      }
    }
    return Math.sqrt(sum / (2.0 * (to - from)));
  }

  private static void add(double[][] into, double[][] x, double gain) {
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < into[c].length; i++) {
        into[c][i] += gain * x[c][i];
      }
    }
  }

  private double[][] band(
      int frames,
      double from,
      double to,
      double peak,
      boolean afterLive,
      boolean beforeLive,
      double under,
      Chance chance,
      StringBuilder words) {
    double[][] music = pool.get((int) chance.uniform(0, pool.size()));
    double kindOfStart = chance.uniform();
    double kindOfEnd = chance.uniform();
    int start = (int) (from * RATE);
    int length = (int) ((to - from) * RATE);
    // its own beginning, or cut in, or faded in
    boolean own = kindOfStart < 0.5;
    double fadeIn = kindOfStart < 0.75 || afterLive ? 0.005 : chance.uniform(0.3, 1.5);
    int skip = own ? 0 : attack(music, (int) (chance.uniform(1, 3) * RATE));
    double decay = chance.uniform(1, 2.5);
    double fade = kindOfEnd < 0.4 && !beforeLive ? chance.uniform(2, 5) : 0;
    boolean abrupt = kindOfEnd > 0.85;
    if (!own && fadeIn > 0.1) {
      words.append("soft ");
    }
    if (fade > 0) {
      words.append("fade ");
    }
    double quietAt = chance.uniform() < 0.3 ? chance.uniform(0.35, 0.55) * length : -1;
    double quietLength = chance.uniform(1.2, 2.2) * RATE;
    // quiet, but still above the noise
    double loud = peak * rms(music, 0, music[0].length);
    double quietDb = Math.min(0, Math.max(-25, 20 * StrictMath.log10(4 * under / loud)));
    double[][] out = new double[2][frames];
    int tail = abrupt ? (int) (0.06 * RATE) : (int) (decay * RATE);
    for (int i = 0; i < length + tail && start + i < frames; i++) {
      double gain = peak;
      if (!own) {
        double x = Math.min(1, i / (fadeIn * RATE));
        gain *= 0.5 - 0.5 * StrictMath.cos(Math.PI * x);
      }
      if (fade > 0) {
        double into = Math.max(0, i - (length - fade * RATE)) / (fade * RATE);
        gain *= StrictMath.pow(10, -50 * into / 20);
      }
      if (i > length) {
        double x = (i - length) / (double) tail;
        gain *= StrictMath.pow(10, -3 * x) * (1 - x);
      }
      if (quietAt >= 0 && i > quietAt && i < quietAt + quietLength) {
        double x = Math.min(i - quietAt, quietAt + quietLength - i) / (0.3 * RATE);
        gain *= StrictMath.pow(10, quietDb * Math.min(1, x) / 20);
      }
      int at = skip + i;
      for (int c = 0; c < 2; c++) {
        // once round and round: the seam is not heard among the rest
        out[c][start + i] = gain * music[c][at % music[c].length];
      }
    }
    return out;
  }

  /** Where one would cut in: shortly before the next attack, or else at the beginning. */
  private static int attack(double[][] music, int from) {
    int step = RATE / 100;
    for (int at = from; at < from + 4 * RATE; at += step / 2) {
      double before = rms(music, at - 2 * step, at);
      if (rms(music, at, at + 2 * step) > 4 * before) {
        return at - step / 4;
      }
    }
    return 0;
  }

  private double[][] claps(
      int frames, double from, double to, double peak, double under, Chance chance) {
    double[][] out = new double[2][frames];
    int start = (int) ((from - 0.4) * RATE);
    int end = (int) ((to + 0.6) * RATE);
    double level = peak * StrictMath.pow(10, chance.uniform(-8, -2) / 20);
    double heard = rms(applause, 0, applause[0].length);
    // it never falls below the noise: there is no gap
    double floor = under * StrictMath.pow(10, chance.uniform(4, 12) / 20) / (level * heard);
    double least = Math.min(0.7, Math.max(floor, StrictMath.pow(10, -chance.uniform(14, 26) / 20)));
    double held = chance.uniform(1.5, 2.5);
    double falling = Math.max(1, (to - from) - held - 0.4);
    for (int i = start; i < end && i < frames; i++) {
      double t = (i - start) / (double) RATE;
      double gain = Math.min(1, t / 0.5);
      double x = Math.max(0, Math.min(1, (t - held) / falling));
      gain *= StrictMath.pow(least, x) * Math.min(1, (end - i) / (0.5 * RATE));
      for (int c = 0; c < 2; c++) {
        out[c][i] = level * gain * applause[c][i % applause[c].length];
      }
    }
    return out;
  }

  /** The neighbouring groove is heard one turn before and behind. */
  private static void echo(double[][] x, double db) {
    int turn = (int) (1.8 * RATE);
    double gain = StrictMath.pow(10, db / 20);
    for (double[] channel : x) {
      double[] whole = channel.clone();
      for (int i = 0; i < whole.length; i++) {
        double before = i + turn < whole.length ? whole[i + turn] : 0;
        double behind = i >= turn ? whole[i - turn] : 0;
        channel[i] += gain * (before + 0.6 * behind);
      }
    }
  }

  private static double[][] noise(int frames, int drop, int lift, Chance chance) {
    double[][] out = new double[2][frames];
    Turntable table = new Turntable(33.333, chance.uniform(0.08, 0.145), 1e-4);
    Transfer transfer = new Transfer(RATE, Pickup.ordinary(), 0.4);
    double dbfs = chance.uniform(-64, -48);
    SurfaceNoise.Level level =
        new SurfaceNoise.Level(
            dbfs, dbfs + chance.uniform(-1.5, 1.5), chance.uniform(0.1, 0.5), table.grooveSpeed(0));
    SurfaceNoise groove = new SurfaceNoise(transfer, table, level, chance.nextLong());
    groove.addTo(out, 0, frames);
    for (double[] wall : out) {
      Arrays.fill(wall, 0, drop, 0);
      Arrays.fill(wall, lift, frames, 0);
    }
    Rumble.addTo(out, drop, lift, RATE, table, dbfs - chance.uniform(3, 15), -66, chance.fork(1));
    if (chance.uniform() < 0.5) {
      Hum.addTo(
          out,
          RATE,
          chance.uniform() < 0.5 ? 50 : 60,
          dbfs - chance.uniform(3, 20),
          chance.fork(2));
    }
    for (double[] wall : out) {
      for (int i = 0; i < frames; i++) {
        wall[i] += 6e-6 * chance.gaussian();
      }
    }
    return out;
  }

  private static void damage(
      double[][] into, double drop, double lift, Chance chance, StringBuilder words) {
    Handling.thump(into, (int) (drop * RATE), RATE, 0.22, 0.012, chance.fork(2));
    Turntable table = new Turntable(33.333, 0.12, 1e-4);
    DamagePlan plan = new DamagePlan(RATE, table, chance.nextLong());
    List<Impulse> list = new ArrayList<>();
    double crackle = chance.logUniform(1, 40);
    list.addAll(plan.scattered(DamageKind.CRACKLE, drop, lift, crackle, 0.01e-6, 0.2e-6));
    list.addAll(
        plan.scattered(DamageKind.DUST, drop, lift, chance.logUniform(0.1, 4), 0.2e-6, 3e-6));
    if (chance.uniform() < 0.5) {
      list.addAll(plan.scratch(drop, lift, chance.uniform(), 0.0005, 3e-6));
      words.append("scratch ");
    }
    Transfer transfer = new Transfer(RATE, Pickup.ordinary(), 0.4);
    new DamageModel(transfer, table, list).addTo(into, 0, 0, into[0].length);
  }

  /** Mean power of the steady noise in half octaves. */
  private double[] steady(double[][] x, int from, int to) {
    double[] sum = null;
    int n = 0;
    for (int at = from; at + CELL < to; at += 4 * CELL) {
      double[] p = halfOctaves(x, at);
      if (sum == null) {
        sum = new double[p.length];
      }
      for (int b = 0; b < p.length; b++) {
        sum[b] += p[b];
      }
      n++;
    }
    for (int b = 0; b < sum.length; b++) {
      sum[b] /= n;
    }
    return sum;
  }

  private float[] heard(double[][] x, double[] steady) {
    float[] out = new float[x[0].length / HOP];
    for (int i = 0; i < out.length; i++) {
      int at = Math.max(0, Math.min(x[0].length - CELL, i * HOP - CELL / 2));
      double[] p = halfOctaves(x, at);
      double most = 1e-6;
      for (int b = 0; b < p.length; b++) {
        most = Math.max(most, p[b] / steady[b]);
      }
      out[i] = (float) (10 * StrictMath.log10(most));
    }
    return out;
  }

  /** First frame, forward or backward, at which the sound is as strong as noise for 17 ms. */
  private long audible(double[][] x, double[] steady, int from, int direction) {
    int run = 0;
    for (int at = from; at >= 0 && at + CELL < x[0].length; at += direction * HOP) {
      double[] p = halfOctaves(x, at);
      boolean strong = false;
      for (int b = 0; b < p.length; b++) {
        strong |= p[b] > steady[b];
      }
      run = strong ? run + 1 : 0;
      if (run == RUN) {
        return at - (long) direction * (RUN - 1) * HOP + CELL / 2;
      }
    }
    throw new IllegalStateException("a band that is never heard");
  }

  /** From 200 Hz to 16 kHz, both walls. */
  private double[] halfOctaves(double[][] x, int at) {
    double[] out = new double[13];
    double[] work = new double[CELL];
    for (double[] channel : x) {
      for (int i = 0; i < CELL; i++) {
        work[i] = window[i] * channel[at + i];
      }
      fft.forward(work);
      for (int b = 0; b < out.length; b++) {
        double low = 200 * StrictMath.pow(2, b / 2.0);
        int first = (int) Math.round(low * CELL / RATE);
        int last = (int) Math.round(low * Math.sqrt(2) * CELL / RATE);
        for (int k = first; k < last; k++) {
          out[b] += work[2 * k] * work[2 * k] + work[2 * k + 1] * work[2 * k + 1];
        }
      }
    }
    return out;
  }
}
