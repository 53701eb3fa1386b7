package org.groovemend.plays;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.signal.delay.CrossSpectrum;
import org.groovemend.signal.delay.DelayLikelihood;
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
   * @param opposed 1 if the play has the opposite sense, 0 if it has the same, -1 if unknown
   * @param noise what an earlier pass of frames as long has found, or null; this pass adds its own
   * @param found is told the noise of this one
   */
  List<Anchor> run(
      RangeReader reference,
      RangeReader aligned,
      double from,
      double to,
      int opposed,
      LineNoise noise,
      LineNoise found)
      throws IOException {
    int rate = reference.format().sampleRateHz();
    int length = length(rate);
    int hop = length / 2;
    int span = hop * (frames + 1);
    int step = hop * frames;
    int firstBin = (int) Math.max(3, Math.ceil(lowHertz * length / rate));
    int lastBin = (int) (Math.min(highHertz / rate, HIGHEST_SHARE) * length);
    if (lastBin - firstBin < 4) {
      return List.of();
    }
    int channels = reference.format().channels();
    CrossSpectrum sum = new CrossSpectrum(length);
    DelayLikelihood told = new DelayLikelihood(length, firstBin, lastBin);
    int search = (int) Math.min(hop - 1, Math.ceil(searchSeconds * rate));
    double[][] x = new double[channels][BLOCK + span];
    double[][] y = new double[channels][BLOCK + span];
    List<Anchor> anchors = new ArrayList<>();
    long last = (long) Math.min(reference.frames(), Math.floor(to * rate));
    for (long block = (long) Math.ceil(from * rate); block + span <= last; ) {
      int some = (int) Math.min(x[0].length, last - block);
      reference.read(block, some, x);
      aligned.read(block, some, y);
      int at = 0;
      for (; at + span <= some; at += step) {
        sum.clear();
        for (int c = 0; c < channels; c++) {
          for (int f = 0; f < frames; f++) {
            sum.add(x[c], y[c], at + f * hop);
          }
        }
        if (!told.weigh(sum.first(), sum.second(), sum.real(), sum.imaginary(), sum.frames())) {
          continue;
        }
        double level = LineNoise.level(sum, firstBin, lastBin);
        found.add(sum, level, opposed == 1);
        if (noise != null && noise.known()) {
          told.weighAgainst(
              noise.scaled(sum.real(), level, 0),
              noise.scaled(sum.imaginary(), level, 1),
              noise.byLine());
        }
        int nearest = told.nearest(search);
        boolean turned = opposed < 0 ? told.height(nearest) < 0 : opposed == 1;
        double delay = told.refine(nearest, turned);
        double doubt = told.bound() * Math.sqrt(channels);
        double agreed = (turned ? -1 : 1) * told.height(delay) / told.mostHeight();
        if (agreed > LEAST_AGREED && doubt < search && Math.abs(delay) <= search) {
          anchors.add(
              anchor(sum, firstBin, lastBin, length, delay, doubt, rate, block + at + span / 2.0));
        }
      }
      block += at;
    }
    return anchors;
  }

  /** Samples of a frame. */
  int length(int rate) {
    double wanted = passageSeconds * rate * 2 / (frames + 1);
    return 1 << (int) Math.max(6, Math.round(StrictMath.log(wanted) / StrictMath.log(2)));
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
    double a = 0;
    double b = 0;
    double shared = 0;
    for (int k = firstBin; k <= lastBin; k++) {
      double turn = 2 * Math.PI * k * delay / length;
      a += sum.first()[k];
      b += sum.second()[k];
      shared += sum.real()[k] * StrictMath.cos(turn) + sum.imaginary()[k] * StrictMath.sin(turn);
    }
    double likeness = shared / Math.sqrt(a * b + 1e-300);
    return new Anchor(middle / rate, delay / rate, doubt / rate, likeness, a);
  }
}
