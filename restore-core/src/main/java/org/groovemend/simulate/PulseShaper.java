package org.groovemend.simulate;

/**
 * Turns a groove pulse into the samples a transfer holds of it.
 *
 * <p>The velocity and the pickup are computed at {@value #OVERSAMPLING} times the sample rate, then
 * limited to the converter's band by a symmetric windowed-sinc low-pass, as a converter does: hence
 * the few frames before a pulse that are not quite zero.
 */
final class PulseShaper {

  static final int OVERSAMPLING = 8;

  /** Half length of the converter's low-pass, frames. */
  static final int HALF_FRAMES = 16;

  /** Band edge of the converter re the sample rate. */
  private static final double BAND_EDGE = 0.47;

  /** Ringing is followed until it has sunk by this many nepers (e^-14: 122 dB). */
  private static final double RING_NEPERS = 14;

  private final Transfer transfer;
  private final double[] lowPass;

  PulseShaper(Transfer transfer) {
    this.transfer = transfer;
    this.lowPass = designLowPass();
  }

  /** Sine integral kernel under a Blackman window, sum 1. */
  private static double[] designLowPass() {
    int half = HALF_FRAMES * OVERSAMPLING;
    double[] h = new double[2 * half + 1];
    double sum = 0;
    for (int i = 0; i < h.length; i++) {
      double t = (i - half) / (double) OVERSAMPLING;
      double sinc =
          t == 0 ? 2 * BAND_EDGE : StrictMath.sin(2 * Math.PI * BAND_EDGE * t) / (Math.PI * t);
      double phase = Math.PI * (i + 1) / (half + 1);
      double window = 0.42 - 0.5 * StrictMath.cos(phase) + 0.08 * StrictMath.cos(2 * phase);
      h[i] = sinc * window;
      sum += h[i];
    }
    for (int i = 0; i < h.length; i++) {
      h[i] /= sum;
    }
    return h;
  }

  /** Frames a pulse may occupy, low-pass included. */
  int lengthFrames(GroovePulse pulse, double grooveSpeed) {
    double ring =
        RING_NEPERS * 2 * transfer.pickup().q() / (2 * Math.PI * transfer.pickup().resonanceHz());
    double seconds = pulse.seconds(grooveSpeed) + ring;
    return (int) Math.ceil(seconds * transfer.sampleRateHz()) + 2 * HALF_FRAMES + 2;
  }

  /** First frame touched by a pulse that begins at {@code atFrame}. */
  static long firstFrame(double atFrame) {
    return (long) Math.floor(eighth(atFrame) / (double) OVERSAMPLING) - HALF_FRAMES;
  }

  private static long eighth(double atFrame) {
    return Math.round(atFrame * OVERSAMPLING);
  }

  /** Samples of the pulse on a wall of factor 1 from {@link #firstFrame} on, full scale 1.0. */
  double[] samples(double atFrame, GroovePulse pulse, double grooveSpeed) {
    int frames = lengthFrames(pulse, grooveSpeed);
    double rate = (double) transfer.sampleRateHz() * OVERSAMPLING;
    double[] fine = new double[(frames - 2 * HALF_FRAMES) * OVERSAMPLING];
    Section pickup = transfer.pickup().section(rate);
    double gain = 1 / transfer.fullScaleMetresPerSecond();
    int phase = (int) Math.floorMod(eighth(atFrame), (long) OVERSAMPLING);
    // mean velocity of each step from the displacement: the steps then sum to exactly no net
    // movement
    double before = 0;
    for (int i = phase; i < fine.length; i++) {
      double now = pulse.displacement((i - phase + 0.5) / rate, grooveSpeed);
      fine[i] = pickup.next(gain * (now - before) * rate);
      before = now;
    }
    double[] out = new double[frames];
    for (int n = 0; n < frames; n++) {
      int centre = (n - HALF_FRAMES) * OVERSAMPLING;
      int from = Math.max(0, centre - HALF_FRAMES * OVERSAMPLING);
      int to = Math.min(fine.length - 1, centre + HALF_FRAMES * OVERSAMPLING);
      double sum = 0;
      for (int i = from; i <= to; i++) {
        sum += fine[i] * lowPass[i - centre + HALF_FRAMES * OVERSAMPLING];
      }
      out[n] = sum;
    }
    return out;
  }
}
