package org.groovemend.simulate;

/**
 * A plucked string: a burst of noise running round a delay line with a loss filter.
 *
 * @param decaySeconds time in which the fundamental falls by 60 dB
 * @param smoothing 0 (bright) to 0.5 (dark): weight of the earlier sample in the loop filter
 * @param pluckPoint 0 to 0.5 of the string's length
 * @param softness 0 to below 1: low-pass of the burst
 */
record PluckedString(double decaySeconds, double smoothing, double pluckPoint, double softness) {

  static final PluckedString PLECTRUM = new PluckedString(1.1, 0.28, 0.12, 0.15);
  static final PluckedString BASS = new PluckedString(1.6, 0.5, 0.22, 0.8);

  void add(
      double[] into, int start, int rate, double hz, double seconds, double level, Chance chance) {
    double period = rate / hz;
    // the loop filter delays by about `smoothing`, the all-pass by 0.3 to 1.3
    int whole = (int) Math.floor(period - smoothing - 0.3);
    double fraction = period - smoothing - whole;
    double allPass = (1 - fraction) / (1 + fraction);
    double loss = StrictMath.pow(10, -3 / (hz * decaySeconds));
    double damped = loss * StrictMath.pow(10, -3 / (hz * 0.08));
    double[] line = new double[whole];
    double burst = 0;
    for (int i = 0; i < whole; i++) {
      burst += (1 - softness) * (chance.uniform(-1, 1) - burst);
      line[i] = burst;
    }
    comb(line, (int) Math.round(pluckPoint * whole));
    int held = (int) (seconds * rate);
    int frames = Math.min(held + (int) (0.15 * rate), into.length - start);
    double last = 0;
    double passIn = 0;
    double passOut = 0;
    int at = 0;
    for (int i = 0; i < frames; i++) {
      double y = line[at];
      into[start + i] += level * y;
      double filtered = (i < held ? loss : damped) * ((1 - smoothing) * y + smoothing * last);
      last = y;
      double tuned = allPass * filtered + passIn - allPass * passOut;
      passIn = filtered;
      passOut = tuned;
      line[at] = tuned;
      at = at + 1 == whole ? 0 : at + 1;
    }
  }

  /**
   * Takes out the partials that have a node where the string is plucked, and the mean; RMS to 1/2.
   */
  private static void comb(double[] line, int distance) {
    double[] burst = line.clone();
    double mean = 0;
    for (int i = 0; i < line.length; i++) {
      line[i] = burst[i] - burst[Math.floorMod(i - distance, line.length)];
      mean += line[i] / line.length;
    }
    double energy = 1e-12;
    for (int i = 0; i < line.length; i++) {
      line[i] -= mean;
      energy += line[i] * line[i];
    }
    double gain = 0.5 / Math.sqrt(energy / line.length);
    for (int i = 0; i < line.length; i++) {
      line[i] *= gain;
    }
  }
}
