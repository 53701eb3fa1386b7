package org.groovemend.plays;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.groovemend.signal.delay.CrossSpectrum;
import org.groovemend.signal.delay.DelayLikelihood;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;

/**
 * Measures delays of passages, one after another, between the reference and a play that is aligned
 * so far.
 *
 * @param passageSeconds about how long a passage is, before it is brought to a power of two
 * @param frames Hann frames that overlap by half in a passage
 * @param lowHertz lowest frequency that counts
 * @param highHertz highest
 * @param searchSeconds largest delay that is looked for
 */
record AnchorPass(
    double passageSeconds, int frames, double lowHertz, double highHertz, double searchSeconds) {
  private static final int BLOCK = 1 << 16;

  /** Share of the phases, by weight, that must agree: of unrelated noise a third may by chance. */
  private static final double LEAST_AGREED = 0.6;

  /** Keeps the lines that average their neighbours away from the last one. */
  private static final double HIGHEST_SHARE = 0.45;

  /**
   * Reads both from one moment to another.
   *
   * @param reference for several threads
   * @param aligned makes a reader of the play for one thread
   * @param opposed 1 if the play has the opposite sense, 0 if it has the same, -1 if unknown
   * @param noise what an earlier pass of frames as long has found, or null; this pass adds its own
   * @param found is told the noise of this one
   * @param levels is told how strong the reference is in every passage, those too that tell nothing
   */
  List<Anchor> run(
      RangeReader reference,
      Supplier<RangeReader> aligned,
      double from,
      double to,
      int opposed,
      LineNoise noise,
      LineNoise found,
      List<Double> levels,
      Crew crew)
      throws IOException {
    int rate = reference.format().sampleRateHz();
    int length = length(rate);
    int firstBin = (int) Math.max(3, Math.ceil(lowHertz * length / rate));
    int lastBin = (int) (Math.min(highHertz / rate, HIGHEST_SHARE) * length);
    if (lastBin - firstBin < 4) {
      return List.of();
    }
    List<Anchor> anchors = new ArrayList<>();
    long first = (long) Math.ceil(from * rate);
    long last = (long) Math.min(reference.frames(), Math.floor(to * rate));
    int step = length / 2 * frames;
    int block = step * (BLOCK / step + 1);
    long blocks = Math.max(0, (last - first - span(length) + block) / block);
    double[] known = noise != null && noise.known() ? noise.byLine() : null;
    Lots.run(
        blocks,
        crew,
        () ->
            new Measuring(
                reference,
                aligned.get(),
                first,
                last,
                block,
                firstBin,
                lastBin,
                opposed,
                known,
                anchors,
                levels,
                found));
    return anchors;
  }

  private int span(int length) {
    return length / 2 * (frames + 1);
  }

  /** One thread's room. */
  private final class Measuring implements Lots.Worker {
    private final RangeReader reference;
    private final RangeReader aligned;
    private final long first;
    private final long last;
    private final int block;
    private final int firstBin;
    private final int lastBin;
    private final int opposed;
    private final double[] noise;
    private final List<Anchor> all;
    private final List<Double> allLevels;
    private final LineNoise allNoise;
    private final int rate;
    private final int length;
    private final CrossSpectrum sum;
    private final DelayLikelihood told;
    private final double[][] x;
    private final double[][] y;
    private final double[][] scaled;
    private final UnsharedBursts bursts;
    private final List<Anchor> some = new ArrayList<>();
    private final List<Double> levels = new ArrayList<>();
    private LineNoise found;

    Measuring(
        RangeReader reference,
        RangeReader aligned,
        long first,
        long last,
        int block,
        int firstBin,
        int lastBin,
        int opposed,
        double[] noise,
        List<Anchor> all,
        List<Double> allLevels,
        LineNoise allNoise) {
      this.reference = reference;
      this.aligned = aligned;
      this.first = first;
      this.last = last;
      this.block = block;
      this.firstBin = firstBin;
      this.lastBin = lastBin;
      this.opposed = opposed;
      this.noise = noise;
      this.all = all;
      this.allLevels = allLevels;
      this.allNoise = allNoise;
      rate = reference.format().sampleRateHz();
      length = length(rate);
      sum = new CrossSpectrum(length);
      told = new DelayLikelihood(length, firstBin, lastBin);
      int channels = reference.format().channels();
      x = new double[channels][block + span(length)];
      y = new double[channels][block + span(length)];
      scaled = new double[2][length / 2 + 1];
      // before that they do not lie over each other closely enough to be compared
      bursts = noise == null ? null : new UnsharedBursts(rate, x[0].length, length / 2 * frames);
    }

    @Override
    public void work(long lot) throws IOException {
      some.clear();
      levels.clear();
      found = new LineNoise(length);
      long start = first + lot * block;
      int count = (int) Math.min(x[0].length, last - start);
      reference.read(start, count, x);
      aligned.read(start, count, y);
      for (int c = 0; bursts != null && c < x.length; c++) {
        bursts.take(x[c], y[c], count);
      }
      int step = length / 2 * frames;
      for (int at = 0; at < block && at + span(length) <= count; at += step) {
        measure(at, start);
      }
    }

    private void measure(int at, long start) {
      sum.clear();
      for (int c = 0; c < x.length; c++) {
        for (int f = 0; f < frames; f++) {
          sum.add(x[c], y[c], at + f * (length / 2));
        }
      }
      levels.add(power(sum, firstBin, lastBin));
      if (!told.weigh(sum.first(), sum.second(), sum.real(), sum.imaginary(), sum.frames())) {
        return;
      }
      double level = LineNoise.level(sum, firstBin, lastBin);
      found.add(sum, level, opposed == 1);
      if (noise != null) {
        LineNoise.scale(sum.real(), level, scaled[0]);
        LineNoise.scale(sum.imaginary(), level, scaled[1]);
        told.weighAgainst(scaled[0], scaled[1], noise);
      }
      int search = (int) Math.min(length / 2 - 1, Math.ceil(searchSeconds * rate));
      int nearest = told.nearest(search);
      boolean turned = opposed < 0 ? told.height(nearest) < 0 : opposed == 1;
      double delay = told.refine(nearest, turned);
      double doubt = told.bound() * Math.sqrt(x.length);
      double agreed = (turned ? -1 : 1) * told.height(delay) / told.mostHeight();
      if (agreed > LEAST_AGREED && doubt < search && Math.abs(delay) <= search) {
        double middle = start + at + span(length) / 2.0;
        some.add(anchor(sum, firstBin, lastBin, length, delay, doubt, rate, middle));
      }
    }

    @Override
    public void finish(long lot) {
      all.addAll(some);
      allLevels.addAll(levels);
      allNoise.add(found);
    }
  }

  /** Samples of a frame. */
  int length(int rate) {
    double wanted = passageSeconds * rate * 2 / (frames + 1);
    return 1 << (int) Math.max(6, Math.round(StrictMath.log(wanted) / StrictMath.log(2)));
  }

  private static double power(CrossSpectrum sum, int firstBin, int lastBin) {
    double power = 0;
    for (int k = firstBin; k <= lastBin; k++) {
      power += sum.first()[k];
    }
    return power;
  }

  private static Anchor anchor(
      CrossSpectrum sum,
      int firstBin,
      int lastBin,
      int length,
      double delay,
      double doubt,
      int rate,
      double middle) {
    double a = power(sum, firstBin, lastBin);
    double b = 0;
    double shared = 0;
    for (int k = firstBin; k <= lastBin; k++) {
      double turn = 2 * Math.PI * k * delay / length;
      b += sum.second()[k];
      shared += sum.real()[k] * StrictMath.cos(turn) + sum.imaginary()[k] * StrictMath.sin(turn);
    }
    double likeness = shared / Math.sqrt(a * b + 1e-300);
    return new Anchor(middle / rate, delay / rate, doubt / rate, likeness, a);
  }
}
