package org.groovemend.audit;

import org.groovemend.measure.Decibels;

/**
 * Joins samples that stand out of the floor into ranges, one channel, forwards. A range holds at
 * least one sample above the high threshold; samples above the low one, not too far apart, belong
 * to it.
 */
final class RangeFinder {
  private static final double GAP_SECONDS = 1e-3;
  private static final double MOST_GAP_SECONDS = 0.02;
  private static final double LOCAL_SECONDS = 0.05;

  /** A gap may be this share of the range before it. */
  private static final double GAP_SHARE = 0.25;

  /** Of a change of level nothing more than this share of the power is left: -20 dB. */
  private static final double SAME_SOUND = 0.01;

  private static final double SILENT = 1e-8;
  private static final double TOPS = 0.3;

  private final int channel;
  private final int rate;
  private final double top;
  private final DifferenceList list;

  private long from = -1;
  private long last;
  private boolean high;
  private long changed;
  private double peak;
  private double rr;
  private double yy;
  private double ee;
  private double ye;
  private long atTop;
  // what has passed since the last sample that stood out, to be added if the range goes on
  private double gapR;
  private double gapY;
  private double gapE;
  private double gapYe;
  private long gapChanged;

  /**
   * @param top largest size of a sample in the derivative; where many reach it, it was clipped
   */
  RangeFinder(int channel, int rate, double top, DifferenceList list) {
    this.channel = channel;
    this.rate = rate;
    this.top = top;
    this.list = list;
  }

  /**
   * The next sample.
   *
   * @param y of the derivative
   * @param e what was expected
   */
  void add(long frame, double y, double e, double low, double highLevel) {
    double r = y - e;
    double size = Math.abs(r);
    if (size > low) {
      if (from >= 0 && frame - last > gap()) {
        close();
      }
      if (from < 0) {
        from = frame;
        high = false;
        changed = 0;
        atTop = 0;
        peak = 0;
        rr = 0;
        yy = 0;
        ee = 0;
        ye = 0;
      } else {
        rr += gapR;
        yy += gapY;
        ee += gapE;
        ye += gapYe;
        changed += gapChanged;
      }
      clearGap();
      last = frame;
      high |= size > highLevel;
      changed++;
      peak = Math.max(peak, size);
      rr += r * r;
      yy += y * y;
      ee += e * e;
      ye += y * e;
      if (Math.abs(y) >= 0.999 * top && Math.abs(e) > Math.abs(y)) {
        atTop++;
      }
    } else if (from >= 0) {
      gapR += r * r;
      gapY += y * y;
      gapE += e * e;
      gapYe += y * e;
      gapChanged += size > 0 ? 1 : 0;
    }
  }

  private long gap() {
    double seconds =
        Math.max(
            GAP_SECONDS, Math.min(MOST_GAP_SECONDS, GAP_SHARE * (last + 1 - from) / (double) rate));
    return Math.round(seconds * rate);
  }

  private void clearGap() {
    gapR = 0;
    gapY = 0;
    gapE = 0;
    gapYe = 0;
    gapChanged = 0;
  }

  /** Ends the range that is open. */
  void close() {
    if (from >= 0 && high) {
      long n = last + 1 - from;
      boolean isLevel = isLong(n) && ee > 0 && yy - ye * ye / ee < SAME_SOUND * yy;
      Difference.Kind kind;
      if (atTop > TOPS * changed && changed >= 3) {
        kind = Difference.Kind.CLIPPED;
      } else if (n > GAP_SECONDS * rate && yy < SILENT * ee) {
        kind = Difference.Kind.SILENCED;
      } else if (isLevel) {
        kind = Difference.Kind.LEVEL;
      } else {
        kind = isLong(n) ? Difference.Kind.REPLACED : Difference.Kind.LOCAL;
      }
      list.add(
          new Difference(
              from,
              last + 1,
              channel,
              kind,
              changed,
              Decibels.ofAmplitude(peak),
              Decibels.ofPower(rr / n),
              kind == Difference.Kind.LEVEL ? Decibels.ofAmplitude(Math.abs(ye / ee)) : Double.NaN,
              ""));
    }
    from = -1;
    clearGap();
  }

  private boolean isLong(long n) {
    return n > LOCAL_SECONDS * rate;
  }
}
