package org.groovemend.audit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.fft.RealFft;

/** Finds a stretch of one onset track in another. Not for several threads at once. */
final class OnsetSearch {

  /** A peak is alone in this many steps on each side. */
  private static final int APART = 8;

  private final OnsetTrack original;
  private final int size;
  private final RealFft fft;
  private final double[][] spectra;
  private final double[] energyBefore;

  /**
   * A place that fits.
   *
   * @param seconds of the original at the stretch's beginning
   * @param likeness normalised correlation, -1 to 1
   */
  record Place(double seconds, double likeness) {}

  OnsetSearch(OnsetTrack original, int longestTemplate) {
    this.original = original;
    int n = original.length();
    int wanted = 256;
    while (wanted < n + longestTemplate) {
      wanted *= 2;
    }
    size = wanted;
    fft = new RealFft(size);
    spectra = new double[original.bands().length][size];
    energyBefore = new double[n + 1];
    for (int b = 0; b < spectra.length; b++) {
      float[] band = original.bands()[b];
      for (int i = 0; i < n; i++) {
        spectra[b][i] = band[i];
        energyBefore[i + 1] += (double) band[i] * band[i];
      }
      fft.forward(spectra[b]);
    }
    for (int i = 0; i < n; i++) {
      energyBefore[i + 1] += energyBefore[i];
    }
  }

  /**
   * The best places, best first.
   *
   * @param first step of the derivative at which the stretch begins
   * @param length steps of it
   * @param factor how many times as fast as the original it runs
   */
  List<Place> find(OnsetTrack derivative, int first, int length, double factor, int most) {
    int stretched = (int) Math.min(original.length(), Math.floor((length - 1) * factor));
    List<Place> places = new ArrayList<>();
    if (stretched < 10) {
      return places;
    }
    double[] sum = new double[size];
    double[] template = new double[size];
    double energy = 0;
    for (int b = 0; b < spectra.length; b++) {
      Arrays.fill(template, 0);
      float[] band = derivative.bands()[b];
      for (int i = 0; i < stretched; i++) {
        double at = first + i / factor;
        int k = (int) at;
        double part = at - k;
        double v = band[k] * (1 - part) + band[Math.min(band.length - 1, k + 1)] * part;
        template[i] = v;
        energy += v * v;
      }
      fft.forward(template);
      double[] s = spectra[b];
      sum[0] += s[0] * template[0];
      sum[1] += s[1] * template[1];
      for (int k = 2; k < size; k += 2) {
        sum[k] += s[k] * template[k] + s[k + 1] * template[k + 1];
        sum[k + 1] += s[k + 1] * template[k] - s[k] * template[k + 1];
      }
    }
    fft.inverse(sum);
    int last = original.length() - stretched;
    double[] likeness = new double[last + 1];
    for (int i = 0; i <= last; i++) {
      double power = energy * (energyBefore[i + stretched] - energyBefore[i]);
      likeness[i] = power > 1e-12 ? sum[i] / Math.sqrt(power) : 0;
    }
    for (int m = 0; m < most; m++) {
      int best = 0;
      for (int i = 1; i <= last; i++) {
        if (likeness[i] > likeness[best]) {
          best = i;
        }
      }
      if (!(likeness[best] > 0)) {
        break;
      }
      places.add(new Place((double) best / OnsetTrack.PER_SECOND, likeness[best]));
      Arrays.fill(likeness, Math.max(0, best - APART), Math.min(last + 1, best + APART + 1), 0);
    }
    return places;
  }
}
