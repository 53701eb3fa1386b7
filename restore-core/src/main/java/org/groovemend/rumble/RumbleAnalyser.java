package org.groovemend.rumble;

import java.io.IOException;
import java.util.Locale;
import org.groovemend.stage.RangeReader;

/**
 * Measures what lies low in a side and says what of it is to be taken. Reads the side once; what it
 * keeps does not grow with length.
 *
 * <p>The vertical bass is taken for rumble if it is there where no music is, in the bare groove or
 * else in the quietest moments (5 %), no further below loud music than asked for, and its louder
 * moments (90 % are quieter) are hardly louder: what they have over {@link #STEADY} times that must
 * be at least 20 dB below the louder moments of the lateral bass. Stereo bass comes and goes with
 * the music and is about as strong as the lateral. These rules are our own.
 */
public final class RumbleAnalyser {
  /** Below is what no music needs; upper end of the lower band that is measured. */
  public static final double SUBSONIC_HERTZ = 20;

  /** Upper end of the band if the vertical part is not to be treated apart. */
  static final double USUAL_BAND_HERTZ = 80;

  /** Shortest side whose vertical bass is judged. */
  static final double LEAST_SECONDS = 4;

  private static final double MOMENT_SECONDS = 0.5;
  private static final double LOUD = 0.95;
  private static final double LOUDER = 0.9;
  private static final double QUIET = 0.05;

  /** Of the moments of bare groove, so that one with a knock in it does not count. */
  private static final double QUIETER = 0.25;

  /**
   * Narrow noise of a few hertz varies so much between its 5 and 90 % in moments of that length.
   */
  private static final double STEADY = 4;

  private static final double OWN_MUSIC = 0.01;
  private static final int BLOCK = 1 << 16;

  private final RangeReader side;
  private final RumbleParameters parameters;
  private final double bandHigh;
  private final Moments all = new Moments();
  private final Moments low = new Moments();
  private final Moments lateral = new Moments();
  private final Moments vertical = new Moments();
  private final Moments bare = new Moments();
  private final long bareStart;
  private final long bareEnd;
  private long frame;
  private int step;

  private RumbleAnalyser(
      RangeReader side, RumbleParameters parameters, long bareStart, long bareEnd) {
    this.side = side;
    this.bareStart = bareStart;
    this.bareEnd = bareEnd;
    this.parameters = parameters;
    this.bandHigh = bandHigh(parameters);
  }

  /**
   * Measures and decides.
   *
   * @param side as captured or as any stage leaves it
   * @param bareStart first frame of a stretch of bare groove
   * @param bareEnd one past its last; {@code bareStart} if none is known
   */
  public static RumbleStage analyse(
      RangeReader side, RumbleParameters parameters, long bareStart, long bareEnd)
      throws IOException {
    return new RumbleStage(
        parameters, new RumbleAnalyser(side, parameters, bareStart, bareEnd).run());
  }

  /** Upper end of the band that is measured besides the subsonic one. */
  static double bandHigh(RumbleParameters parameters) {
    return parameters.verticalCornerHertz() > SUBSONIC_HERTZ
        ? parameters.verticalCornerHertz()
        : USUAL_BAND_HERTZ;
  }

  private RumbleFinding run() throws IOException {
    int rate = side.format().sampleRateHz();
    int channels = side.format().channels();
    LowBands bands =
        new LowBands(
            rate,
            channels,
            SUBSONIC_HERTZ,
            bandHigh,
            (lateralLow, verticalLow, lateralBand, verticalBand) -> {
              low.add(lateralLow * lateralLow + verticalLow * verticalLow);
              lateral.add(lateralBand * lateralBand);
              vertical.add(verticalBand * verticalBand);
              if (frame >= bareStart && frame < bareEnd) {
                bare.add(verticalBand * verticalBand);
              }
              frame += step;
            });
    step = bands.step();
    int instants = (int) Math.max(1, Math.round(MOMENT_SECONDS * bands.lowRate(rate)));
    low.length = instants;
    lateral.length = instants;
    vertical.length = instants;
    bare.length = instants;
    all.length = (int) Math.max(1, Math.round(MOMENT_SECONDS * rate));
    double[][] x = new double[channels][BLOCK];
    for (long at = 0; at < side.frames(); at += BLOCK) {
      int count = (int) Math.min(BLOCK, side.frames() - at);
      side.read(at, count, x);
      all.add(x, count);
      bands.accept(x, count);
    }
    bands.finish();
    for (Moments each : new Moments[] {all, low, lateral, vertical, bare}) {
      each.finish();
    }
    return judged(channels, side.format().seconds(side.frames()));
  }

  private RumbleFinding judged(int channels, double seconds) {
    double loud = all.counts.at(LOUD);
    double limit = loud * StrictMath.pow(10, parameters.leaveBelowDb() / 10);
    double lowPower = low.counts.at(LOUDER);
    boolean lowTaken = parameters.cornerHertz() > 0 && lowPower > 0 && lowPower >= limit;
    String words =
        parameters.cornerHertz() == 0
            ? "What lies low in both walls is left by the settings"
            : loud == 0
                ? "Nothing sounds"
                : String.format(
                    Locale.ROOT,
                    "What lies below %.0f Hz, offset and warp with it, is %.0f dB %s the loud music"
                        + " and %s",
                    SUBSONIC_HERTZ,
                    Math.abs(db(lowPower / loud)),
                    lowPower > loud ? "over" : "below",
                    lowTaken ? "was taken out" : "was left");
    String vertically = againstVertical(channels, seconds, limit);
    boolean verticalTaken = vertically.isEmpty();
    if (verticalTaken) {
      vertically =
          String.format(
              Locale.ROOT,
              "The vertical bass below %.0f Hz was taken out too: without music it is %.0f dB below"
                  + " the loud music",
              parameters.verticalCornerHertz(),
              -db(quiet() / loud));
    }
    if (low.counts.at(0.5) > all.counts.at(0.5) / 2) {
      vertically += ". Most of the energy of the side lies that low: look to arm and turntable";
    }
    return new RumbleFinding(
        db(loud),
        db(lowPower),
        SUBSONIC_HERTZ,
        bandHigh,
        db(lateral.counts.at(LOUDER)),
        db(vertical.counts.at(LOUDER)),
        db(quiet()),
        lowTaken,
        verticalTaken,
        words + ". " + vertically + ".");
  }

  /** Why the vertical part is not treated apart; empty if it is. */
  private String againstVertical(int channels, double seconds, double limit) {
    if (channels == 1) {
      return "A side of one channel has no vertical part";
    }
    if (parameters.verticalCornerHertz() == 0) {
      return "The vertical part was treated like the lateral one, as the settings say";
    }
    double louder = vertical.counts.at(LOUDER);
    if (vertical.counts.empty()) {
      return "Both channels are the same: there is no vertical part";
    }
    if (parameters.vertical() == RumbleParameters.VerticalPart.ALWAYS) {
      return "";
    }
    if (seconds < LEAST_SECONDS) {
      return "The side is shorter than 4 s: too short to tell vertical rumble from stereo bass";
    }
    if (quiet() < limit) {
      return String.format(
          Locale.ROOT,
          "The vertical bass was left: without music it is %.0f dB below the loud music",
          -db(quiet() / all.counts.at(LOUD)));
    }
    double steady = STEADY * quiet();
    if (louder - steady > OWN_MUSIC * lateral.counts.at(LOUDER)) {
      return String.format(
          Locale.ROOT,
          "The vertical bass was left: it swells by %.0f dB and is only %.0f dB below the lateral,"
              + " so it may be stereo bass (\"vertical: always\" takes it)",
          db(louder / quiet()),
          // adding 0 turns a negative zero into a positive one
          Math.rint(-db(louder / lateral.counts.at(LOUDER))) + 0.0);
    }
    return "";
  }

  /** Power of the vertical bass where there is no music. */
  private double quiet() {
    return bare.counts.empty() ? vertical.counts.at(QUIET) : bare.counts.at(QUIETER);
  }

  private static double db(double power) {
    return 10 * StrictMath.log10(power);
  }

  /** Mean power of moment after moment. */
  private static final class Moments {
    final PowerCounts counts = new PowerCounts();
    int length;
    private double sum;
    private int count;

    void add(double power) {
      sum += power;
      if (++count == length) {
        counts.add(sum / count);
        sum = 0;
        count = 0;
      }
    }

    /** The mean powers of channels, frame by frame. */
    void add(double[][] x, int frames) {
      double[] first = x[0];
      double[] last = x[x.length - 1];
      double share = x.length == 2 ? 0.5 : 1;
      double other = x.length == 2 ? 1 : 0;
      for (int done = 0; done < frames; ) {
        int n = Math.min(frames - done, length - count);
        double total = sum;
        for (int i = done; i < done + n; i++) {
          total += share * (first[i] * first[i] + other * (last[i] * last[i]));
        }
        sum = total;
        count += n;
        done += n;
        if (count == length) {
          counts.add(sum / count);
          sum = 0;
          count = 0;
        }
      }
    }

    /** A last moment of less than half its length counts only if there is no other. */
    void finish() {
      if (count > 0 && (2 * count >= length || counts.empty())) {
        counts.add(sum / count);
      }
    }
  }
}
