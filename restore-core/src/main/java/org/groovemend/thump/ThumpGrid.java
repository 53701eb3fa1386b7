package org.groovemend.thump;

import java.util.ArrayList;
import java.util.List;

/** Shapes from which a search sets out, with their waveforms. Immutable; shared by threads. */
final class ThumpGrid {
  private static final double[] START = {30, 50, 75, 115};
  private static final double[] FALL = {0.25, 0.85};
  private static final double[] DECAY = {0.02, 0.045, 0.09};
  private static final int[] ONSET = {-8, -4, 0, 4, 8};
  private static final double GLIDE = 0.1;

  private final List<ThumpShape> shapes = new ArrayList<>();
  private final double[][] cos;
  private final double[][] sin;
  private final RingPower[] power;

  ThumpGrid(ThumpGeometry g) {
    for (double start : START) {
      for (double fall : FALL) {
        for (double decay : DECAY) {
          shapes.add(new ThumpShape(start, start * fall, GLIDE, decay, 0));
        }
      }
    }
    int length = PlaceData.REFERENCE + g.judged();
    cos = new double[shapes.size()][length];
    sin = new double[shapes.size()][length];
    power = new RingPower[shapes.size()];
    for (int i = 0; i < shapes.size(); i++) {
      shapes.get(i).write(0, 1 / g.perSecond(), ThumpFit.RISE, length, cos[i], sin[i]);
      power[i] = new RingPower(cos[i], sin[i], length);
    }
  }

  int size() {
    return shapes.size() * ONSET.length;
  }

  ThumpShape shape(int i) {
    ThumpShape s = shapes.get(i / ONSET.length);
    int onset = ONSET[i % ONSET.length];
    return new ThumpShape(s.startHz(), s.endHz(), s.glideSeconds(), s.decaySeconds(), onset);
  }

  /**
   * Adds to each score the drop that its shape brings along one axis.
   *
   * @param filter correlation of the whitening filter, as {@link MusicModel#power} gives it
   * @param matched whitened data filtered backwards, index {@link PlaceData#REFERENCE} the
   *     reference
   * @param valid valid values
   */
  void score(double[] filter, double[] matched, int valid, double[] scores) {
    double[] h = new double[3];
    for (int s = 0; s < power.length; s++) {
      if (!power[s].weights(filter, h)) {
        continue;
      }
      for (int o = 0; o < ONSET.length; o++) {
        int at = PlaceData.REFERENCE + ONSET[o];
        double p = PlaceData.dot(cos[s], 0, matched, at, Math.max(0, valid - at));
        double q = PlaceData.dot(sin[s], 0, matched, at, Math.max(0, valid - at));
        scores[s * ONSET.length + o] += h[0] * p * p + h[1] * p * q + h[2] * q * q;
      }
    }
  }
}
