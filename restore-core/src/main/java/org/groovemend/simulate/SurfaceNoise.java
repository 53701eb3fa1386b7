package org.groovemend.simulate;

/**
 * Roughness of the groove walls, read at groove speed: a stream of noise for two walls.
 *
 * <p>The slope of a wall is random in space with a spectrum S(k), k cycles a metre. Read at speed v
 * it gives a velocity of spectral density S_v(f) = v S(f/v): the whole shape slides down with speed
 * and its density sinks with it. S here is the sum of a coarse grain (wavelengths above {@value
 * #COARSE_WAVELENGTH} m), a grain (above {@value #GRAIN_WAVELENGTH} m) and a flat remainder; the
 * shares are invented. The pickup's resonance follows.
 *
 * <p>Strength turns with the disc: once and twice a turn, each wall with a phase of its own.
 * Filling in other block lengths gives the same samples. Allocates nothing after construction.
 */
public final class SurfaceNoise {

  private static final double COARSE_WAVELENGTH = 4e-3;
  private static final double GRAIN_WAVELENGTH = 0.2e-3;
  private static final double COARSE_SHARE = 3.0;
  private static final double GRAIN_SHARE = 1.0;
  private static final double FLAT_SHARE = 0.2;
  private static final double ONCE_DEPTH = 0.25;
  private static final double TWICE_DEPTH = 0.10;

  /** Speed, corners and modulation are renewed every so many frames, counted from frame 0. */
  private static final int RENEWAL_FRAMES = 64;

  /**
   * What the noise is like.
   *
   * @param leftDbfs RMS of the left wall at {@code referenceSpeed}, averaged over a turn, dB re 1.0
   * @param rightDbfs the same for the right wall
   * @param wallCorrelation correlation coefficient of the two walls, 0 to 1
   * @param referenceSpeed groove speed to which the levels refer, metres a second
   */
  public record Level(
      double leftDbfs, double rightDbfs, double wallCorrelation, double referenceSpeed) {
    public Level {
      if (!(wallCorrelation >= 0 && wallCorrelation <= 1)) {
        throw new IllegalArgumentException(
            "wallCorrelation " + wallCorrelation + " is outside 0 to 1");
      }
      if (!(referenceSpeed > 0)) {
        throw new IllegalArgumentException("referenceSpeed " + referenceSpeed + " is not above 0");
      }
    }
  }

  private final Turntable turntable;
  private final int rate;
  private final Level level;
  private final Chance chance;
  private final Section[] pickup;
  private final double[] coarse = new double[2];
  private final double[] grain = new double[2];
  private final double[] once = new double[2];
  private final double[] twice = new double[2];
  private final double[] base = new double[2];
  private final double[] gain = new double[2];
  private double coarseStep;
  private double grainStep;
  private long frame;

  public SurfaceNoise(Transfer transfer, Turntable turntable, Level level, long seed) {
    this.turntable = turntable;
    this.rate = transfer.sampleRateHz();
    this.level = level;
    this.chance = new Chance(seed);
    this.pickup = new Section[] {transfer.pickup().section(rate), transfer.pickup().section(rate)};
    double shared = chance.uniform();
    double power = 1 + (ONCE_DEPTH * ONCE_DEPTH + TWICE_DEPTH * TWICE_DEPTH) / 2;
    double rms = shapeRms(transfer.pickup().section(rate)) * Math.sqrt(power);
    for (int c = 0; c < 2; c++) {
      once[c] = shared + 0.2 * chance.uniform();
      twice[c] = chance.uniform();
      double dbfs = c == 0 ? level.leftDbfs() : level.rightDbfs();
      base[c] = StrictMath.pow(10, dbfs / 20) / rms;
    }
  }

  /**
   * RMS that white noise of variance 1 has after shape and pickup: energy of the impulse response.
   */
  private double shapeRms(Section section) {
    renewCorners(level.referenceSpeed());
    double energy = 0;
    double c = 0;
    double g = 0;
    for (int n = 0; n < rate / 2; n++) {
      double x = n == 0 ? 1 : 0;
      c += coarseStep * (x - c);
      g += grainStep * (x - g);
      double y = section.next(COARSE_SHARE * c + GRAIN_SHARE * g + FLAT_SHARE * x);
      energy += y * y;
    }
    return Math.sqrt(energy);
  }

  private void renewCorners(double speed) {
    coarseStep = 1 - StrictMath.exp(-2 * Math.PI * speed / COARSE_WAVELENGTH / rate);
    grainStep = 1 - StrictMath.exp(-2 * Math.PI * speed / GRAIN_WAVELENGTH / rate);
  }

  private void renew() {
    double t = frame / (double) rate;
    double speed = turntable.grooveSpeed(t);
    renewCorners(speed);
    double slide = Math.sqrt(speed / level.referenceSpeed());
    double turns = turntable.turns(t);
    for (int c = 0; c < 2; c++) {
      gain[c] =
          base[c]
              * slide
              * (1
                  + ONCE_DEPTH * StrictMath.cos(2 * Math.PI * (turns + once[c]))
                  + TWICE_DEPTH * StrictMath.cos(2 * Math.PI * (2 * turns + twice[c])));
    }
  }

  /**
   * Adds the next {@code count} frames.
   *
   * @param into planar, two channels
   */
  public void addTo(double[][] into, int offset, int count) {
    double common = Math.sqrt(level.wallCorrelation());
    double own = Math.sqrt(1 - level.wallCorrelation());
    for (int i = 0; i < count; i++) {
      if (frame % RENEWAL_FRAMES == 0) {
        renew();
      }
      double both = common * chance.gaussian();
      for (int c = 0; c < 2; c++) {
        double x = both + own * chance.gaussian();
        coarse[c] += coarseStep * (x - coarse[c]);
        grain[c] += grainStep * (x - grain[c]);
        double shaped = COARSE_SHARE * coarse[c] + GRAIN_SHARE * grain[c] + FLAT_SHARE * x;
        into[c][offset + i] += gain[c] * pickup[c].next(shaped);
      }
      frame++;
    }
  }
}
