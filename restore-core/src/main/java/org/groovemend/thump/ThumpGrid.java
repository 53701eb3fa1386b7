package org.groovemend.thump;

import java.util.ArrayList;
import java.util.List;

/** Shapes from which a search sets out, with their waveforms. */
final class ThumpGrid {
  private static final double[] START = {30, 50, 75, 115};
  private static final double[] FALL = {0.25, 0.85};
  private static final double[] DECAY = {0.02, 0.045, 0.09};
  private static final int[] ONSET = {-8, -4, 0, 4, 8};
  private static final double GLIDE = 0.1;

  private final List<ThumpShape> shapes = new ArrayList<>();
  private final double[][] cos;
  private final double[][] sin;

  /**
   * @param before seconds from index 0 of the waveforms to the reference
   * @param spacing seconds from one sample to the next
   * @param rise time constant of the soft beginning, in seconds
   * @param length samples of a waveform
   */
  ThumpGrid(double before, double spacing, double rise, int length) {
    for (double start : START) {
      for (double fall : FALL) {
        for (double decay : DECAY) {
          for (int onset : ONSET) {
            shapes.add(new ThumpShape(start, start * fall, GLIDE, decay, onset));
          }
        }
      }
    }
    cos = new double[shapes.size()][length];
    sin = new double[shapes.size()][length];
    for (int i = 0; i < shapes.size(); i++) {
      double first = -before - shapes.get(i).onset() * spacing;
      shapes.get(i).write(first, spacing, rise, length, cos[i], sin[i]);
    }
  }

  int size() {
    return shapes.size();
  }

  ThumpShape shape(int i) {
    return shapes.get(i);
  }

  double[] cos(int i) {
    return cos[i];
  }

  double[] sin(int i) {
    return sin[i];
  }
}
