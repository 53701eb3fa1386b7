package org.groovemend.evaluate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.groovemend.playback.PlaybackCurve;
import org.groovemend.playback.PlaybackFilter;
import org.groovemend.playback.RecursiveFilter;
import org.groovemend.simulate.DamageKind;
import org.groovemend.simulate.DamageModel;
import org.groovemend.simulate.DamagePlan;
import org.groovemend.simulate.GroovePulse;
import org.groovemend.simulate.Impulse;
import org.groovemend.simulate.Pickup;
import org.groovemend.simulate.SurfaceNoise;
import org.groovemend.simulate.Transfer;
import org.groovemend.simulate.Turntable;
import org.groovemend.simulate.WanderingHum;

/**
 * Sound with damage whose places are known, as a microgroove disc played through the RIAA curve
 * would give it.
 *
 * @param sound undamaged, {@code leadFrames} of silence in front
 * @param damaged the same with the damage, full scale 1.0, never beyond it
 * @param leadFrames of bare groove in front of the music
 * @param truth damaged ranges, by start
 */
record DamagedCopy(double[][] sound, double[][] damaged, int leadFrames, List<TrueRange> truth) {
  /**
   * Groove velocity, root mean square, that the music's level is taken for: 3.5 cm/s peak of a tone
   * at the reference level of a stereo disc, about 2.5 cm/s (order of size of IEC 60098).
   */
  private static final double MUSIC_METRES_PER_SECOND = 0.025;

  private static final Turntable TURNTABLE = new Turntable(100.0 / 3, 0.12, 1e-4);
  private static final double LEAD_SECONDS = 3;

  /** Music over groove noise, dB. */
  private static final double SNR_DB = 30;

  /** The same where hum is what is heard. */
  private static final double QUIET_SNR_DB = 50;

  /** Root mean square of the music over the amplitude of the first line of hum, dB. */
  private static final double HUM_BELOW_DB = 20;

  /** Share of a pulse's own peak below which its tail no longer counts as damage. */
  private static final double TAIL_SHARE = 0.02;

  /** And the level below which nothing does: -90 dBFS. */
  private static final double FLOOR = 3e-5;

  /**
   * Length of damage that a microgroove shows, over that of a coarse groove: as the groove width.
   */
  private static final double FINER = 0.4;

  private static final double PULSE_SECONDS = 0.08;

  /** Damages a copy; the sound itself is not touched. */
  static DamagedCopy of(Sound sound, Scenario scenario, long seed) {
    int rate = sound.sampleRateHz();
    int lead = scenario.groove() ? (int) Math.round(LEAD_SECONDS * rate) : 0;
    int frames = lead + sound.frames();
    double[][] clean = new double[sound.channels()][frames];
    for (int c = 0; c < clean.length; c++) {
      System.arraycopy(sound.samples()[c], 0, clean[c], lead, sound.frames());
    }
    double rms = Levels.rms(sound.samples());
    Transfer transfer = new Transfer(rate, Pickup.ordinary(), MUSIC_METRES_PER_SECOND / rms);
    Maker maker = new Maker(clean, transfer);
    maker.pulses(plan(scenario, frames / (double) rate, rate, seed));
    if (scenario == Scenario.THUMPS) {
      maker.thumps(seed, rms);
    }
    if (scenario.groove()) {
      maker.noise(seed, rms, scenario == Scenario.HUM ? QUIET_SNR_DB : SNR_DB);
    }
    if (scenario == Scenario.HUM) {
      double dbfs = 20 * StrictMath.log10(rms) - HUM_BELOW_DB;
      WanderingHum.addTo(maker.damaged, rate, dbfs, seed);
    }
    return maker.copy(lead);
  }

  private static List<Impulse> plan(Scenario scenario, double seconds, int rate, long seed) {
    DamagePlan plan = new DamagePlan(rate, TURNTABLE, seed * 1000 + scenario.ordinal());
    List<Impulse> list = new ArrayList<>();
    if (scenario == Scenario.CLICKS || scenario == Scenario.WORN || scenario == Scenario.CRACKLE) {
      list.addAll(plan.scattered(DamageKind.DUST, 0.05, seconds - 0.05, 3, 0.5e-6, 15e-6));
    }
    if (scenario == Scenario.CLICKS || scenario == Scenario.WORN) {
      list.addAll(plan.scratch(0.1, seconds - 0.1, 0.3, 0.0008, 12e-6));
      list.addAll(plan.scratch(0.1, seconds - 0.1, 0.8, 0, 5e-6));
    }
    if (scenario == Scenario.CRACKLE || scenario == Scenario.WORN) {
      double perSecond = scenario == Scenario.CRACKLE ? 100 : 20;
      list.addAll(
          plan.scattered(DamageKind.CRACKLE, 0.05, seconds - 0.05, perSecond, 0.1e-6, 1.5e-6));
    }
    return list.stream().map(DamagedCopy::finer).toList();
  }

  /** The plan's lengths are those of a coarse groove; a microgroove's stylus feels finer things. */
  private static Impulse finer(Impulse i) {
    GroovePulse p = i.pulse();
    return new Impulse(
        i.kind(),
        i.atFrame(),
        new GroovePulse(p.heightMetres(), FINER * p.riseMetres(), FINER * p.fallMetres()),
        i.left(),
        i.right());
  }

  /** Adds one kind of damage after the other. */
  private static final class Maker {
    private final double[][] clean;
    private final double[][] damaged;
    private final Transfer transfer;
    private final RecursiveFilter curve;
    private final Prominence prominence = new Prominence();
    private final List<TrueRange> truth = new ArrayList<>();

    Maker(double[][] clean, Transfer transfer) {
      this.clean = clean;
      this.transfer = transfer;
      this.damaged = new double[clean.length][];
      for (int c = 0; c < clean.length; c++) {
        damaged[c] = clean[c].clone();
      }
      this.curve =
          PlaybackFilter.design(PlaybackCurve.MICROGROOVE, transfer.sampleRateHz()).forward();
    }

    void pulses(List<Impulse> impulses) {
      int count = (int) (PULSE_SECONDS * transfer.sampleRateHz());
      for (Impulse impulse : impulses) {
        int start = Math.max(0, (int) impulse.atFrame() - 20);
        double[][] flat = new double[clean.length][count];
        new DamageModel(transfer, TURNTABLE, List.of(impulse)).addTo(flat, 0, start, count);
        for (int c = 0; c < clean.length; c++) {
          double[] pulse = new double[count];
          curve.fromRest(flat[c], pulse, 0, count);
          add(impulse.kind(), c, start, pulse);
        }
      }
    }

    /** About one in two seconds, a pulse in front of a swing of up to the music's level. */
    void thumps(long seed, double rms) {
      int rate = transfer.sampleRateHz();
      double seconds = clean[0].length / (double) rate;
      DamagePlan plan = new DamagePlan(rate, TURNTABLE, seed);
      List<Impulse> blows =
          plan
              .scattered(DamageKind.THUMP, 0.2, Math.max(0.3, seconds - 0.5), 0.5, 5e-6, 20e-6)
              .stream()
              .map(DamagedCopy::finer)
              .toList();
      pulses(blows);
      for (Impulse blow : blows) {
        double peak = rms * 2.5 * Math.min(1, blow.pulse().heightMetres() / 12e-6);
        for (int c = 0; c < clean.length; c++) {
          double[] swing = Swing.samples(peak * Swing.wall(c), rate);
          add(DamageKind.THUMP, c, (int) blow.atFrame(), swing);
        }
      }
    }

    void noise(long seed, double rms, double snrDb) {
      double dbfs = 20 * StrictMath.log10(rms) - snrDb;
      SurfaceNoise.Level level =
          new SurfaceNoise.Level(dbfs, dbfs + 1, 0.35, TURNTABLE.grooveSpeed(0));
      int frames = clean[0].length;
      double[][] walls = new double[2][frames];
      new SurfaceNoise(transfer, TURNTABLE, level, seed).addTo(walls, 0, frames);
      for (int c = 0; c < clean.length; c++) {
        for (int n = 0; n < frames; n++) {
          damaged[c][n] += walls[c][n];
        }
      }
    }

    private void add(DamageKind kind, int channel, int start, double[] pulse) {
      int count = Math.min(pulse.length, clean[channel].length - start);
      double peak = 0;
      for (int n = 0; n < count; n++) {
        damaged[channel][start + n] += pulse[n];
        peak = Math.max(peak, Math.abs(pulse[n]));
      }
      double limit = Math.max(FLOOR, TAIL_SHARE * peak);
      int first = -1;
      int last = -1;
      for (int n = 0; n < count; n++) {
        if (Math.abs(pulse[n]) > limit) {
          first = first < 0 ? n : first;
          last = n;
        }
      }
      if (first >= 0) {
        double stands = prominence.of(clean[channel], pulse, start);
        truth.add(new TrueRange(kind, channel, start + first, start + last + 1, stands));
      }
    }

    DamagedCopy copy(int lead) {
      for (double[] channel : damaged) {
        for (int n = 0; n < channel.length; n++) {
          channel[n] = Math.max(-1, Math.min(1 - 0x1p-23, channel[n]));
        }
      }
      truth.sort(
          Comparator.comparingInt(TrueRange::start)
              .thenComparingInt(TrueRange::channel)
              .thenComparingInt(TrueRange::end));
      return new DamagedCopy(clean, damaged, lead, List.copyOf(truth));
    }
  }
}
