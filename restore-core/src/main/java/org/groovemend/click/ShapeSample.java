package org.groovemend.click;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * An even sample of the shapes of a side's own confident clicks, of however many are met (algorithm
 * R, J. S. Vitter, ACM Trans. Math. Softw. 11, 1985).
 *
 * <p>A click is confident with log odds above {@value #LEAST_LOG_ODDS} and a fill that explains
 * {@value #LEAST_EXPLAINED} deviations: then what is left of the sound in the shape is small. Its
 * shape is what the fill took away, in the other wall too if a place was found there.
 */
final class ShapeSample {
  private static final double LEAST_LOG_ODDS = 5;
  private static final double LEAST_EXPLAINED = 20;
  private static final double LEAST_OTHER = 0;
  private static final int MOST = 24;

  /** With fewer, the standard pulses tell more. */
  private static final int FEW = 6;

  private final Random random = new Random(1);
  private final List<ClickPulse> shapes = new ArrayList<>();
  private int met;

  /** Takes what a window shows; candidates by channel, in order of start. */
  void add(List<List<Candidate>> candidates, ClickDetector detector) {
    for (int c = 0; c < candidates.size(); c++) {
      long end = Long.MIN_VALUE;
      for (Candidate k : candidates.get(c)) {
        if (k.start() < end || !confident(k)) {
          continue;
        }
        end = k.end();
        Candidate other = candidates.size() == 2 ? touching(k, candidates.get(1 - c)) : null;
        if (other != null && confident(other) && c == 1) {
          continue; // taken with the first wall
        }
        int slot = met < MOST ? met : random.nextInt(met + 1);
        met++;
        if (slot < MOST) {
          ClickPulse pulse = pulse(k, other, candidates.size(), detector);
          if (slot < shapes.size()) {
            shapes.set(slot, pulse);
          } else {
            shapes.add(pulse);
          }
        }
      }
    }
  }

  private static boolean confident(Candidate k) {
    return k.logOdds() > LEAST_LOG_ODDS
        && k.traits()[Trait.EXPLAINED.ordinal()] > StrictMath.log(LEAST_EXPLAINED);
  }

  private static Candidate touching(Candidate k, List<Candidate> others) {
    for (Candidate o : others) {
      if (o.logOdds() > LEAST_OTHER && o.start() < k.end() && o.end() > k.start()) {
        return o;
      }
    }
    return null;
  }

  private static ClickPulse pulse(
      Candidate k, Candidate other, int channels, ClickDetector detector) {
    long start = other == null ? k.start() : Math.min(k.start(), other.start());
    long end = other == null ? k.end() : Math.max(k.end(), other.end());
    double[][] walls = new double[channels][(int) (end - start)];
    put(k, start, walls, detector);
    if (other != null) {
      put(other, start, walls, detector);
    }
    return new ClickPulse(walls);
  }

  private static void put(Candidate k, long start, double[][] walls, ClickDetector detector) {
    double[] flat = detector.flat(k.channel());
    int at = detector.index(k.start());
    for (int i = 0; i < k.length(); i++) {
      walls[k.channel()][(int) (k.start() - start) + i] = flat[at + i] - k.fill()[i];
    }
  }

  boolean enough() {
    return shapes.size() >= FEW;
  }

  List<ClickPulse> shapes() {
    return List.copyOf(shapes);
  }
}
