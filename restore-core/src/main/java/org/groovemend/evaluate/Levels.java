package org.groovemend.evaluate;

/** Peak and root mean square of planar samples. */
final class Levels {
  private Levels() {}

  static double peak(double[][] x) {
    double peak = 0;
    for (double[] channel : x) {
      for (double v : channel) {
        peak = Math.max(peak, Math.abs(v));
      }
    }
    return peak;
  }

  static double rms(double[][] x) {
    double sum = 0;
    long count = 0;
    for (double[] channel : x) {
      for (double v : channel) {
        sum += v * v;
      }
      count += channel.length;
    }
    return count == 0 ? 0 : Math.sqrt(sum / count);
  }
}
