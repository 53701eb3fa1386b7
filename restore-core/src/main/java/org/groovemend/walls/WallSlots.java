package org.groovemend.walls;

import java.util.Arrays;
import org.groovemend.signal.delay.CrossSpectrum;

/**
 * Powers of both walls and the power they share, by octave, in slots of a second; of a side with
 * more than {@value #MOST} slots pairs are summed, so that memory does not grow.
 */
final class WallSlots {
  static final int MOST = 1024;
  static final int LEFT = 0;
  static final int RIGHT = 1;
  static final int SHARED = 2;
  private static final int KINDS = 3;

  private final int bands;
  private final double[][] sums = new double[MOST][];
  private final double[] gathering;
  private int count;
  private int merged = 1;
  private int gathered;

  WallSlots(int bands) {
    this.bands = bands;
    gathering = new double[bands * KINDS];
  }

  /** Adds a second: lines of {@code spectrum}, the shared part already turned to no delay. */
  void add(CrossSpectrum spectrum, double[] shared, OctaveBands octaves) {
    for (int b = 0; b < bands; b++) {
      for (int k = octaves.firstBin(b); k < octaves.firstBin(b + 1); k++) {
        gathering[b * KINDS + LEFT] += spectrum.first()[k];
        gathering[b * KINDS + RIGHT] += spectrum.second()[k];
        gathering[b * KINDS + SHARED] += shared[k];
      }
    }
    if (++gathered == merged) {
      close();
    }
  }

  void finish() {
    if (gathered > 0 && count == 0) {
      close();
    }
  }

  private void close() {
    if (count == MOST) {
      for (int i = 0; i < MOST / 2; i++) {
        sums[i] = sums[2 * i];
        for (int j = 0; j < sums[i].length; j++) {
          sums[i][j] += sums[2 * i + 1][j];
        }
      }
      count = MOST / 2;
      merged *= 2;
      return; // what was gathered is half of a slot now
    }
    sums[count++] = gathering.clone();
    Arrays.fill(gathering, 0);
    gathered = 0;
  }

  int count() {
    return count;
  }

  int bands() {
    return bands;
  }

  double at(int slot, int band, int kind) {
    return sums[slot][band * KINDS + kind];
  }

  /** Sum over bands from {@code low} up to, not including, {@code high}. */
  double at(int slot, int low, int high, int kind) {
    double sum = 0;
    for (int b = low; b < Math.min(high, bands); b++) {
      sum += at(slot, b, kind);
    }
    return sum;
  }

  /** Sum over the side. */
  double all(int low, int high, int kind) {
    double sum = 0;
    for (int s = 0; s < count; s++) {
      sum += at(s, low, high, kind);
    }
    return sum;
  }
}
