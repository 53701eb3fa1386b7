package org.groovemend.simulate;

import org.groovemend.signal.fft.RealFft;

/**
 * A mono groove on two walls: music that comes to one wall later, weaker or of opposite sense, and
 * noise of each wall.
 *
 * <p>The delay is made in the spectrum of the whole side, exact for what lies below half the
 * sampling rate; no filter of the treatment takes part.
 *
 * @param samples what a transfer would hold, {@code [wall][frame]}
 * @param music the same without noise
 * @param source what the groove holds: the music of both walls if they were alike
 */
public record TwoWalls(double[][] samples, double[][] music, double[] source) {

  /**
   * What the walls are like.
   *
   * @param delayFrames how far the right wall comes behind the left
   * @param balanceDb right wall's music re the left's
   * @param opposed whether the right wall has the opposite sense
   * @param leftNoiseDb noise of the left wall re the music, root mean squares
   * @param rightNoiseDb of the right wall
   * @param noiseAlike correlation of the two noises, -1 to 1
   */
  public record Groove(
      double delayFrames,
      double balanceDb,
      boolean opposed,
      double leftNoiseDb,
      double rightNoiseDb,
      double noiseAlike) {

    /** Walls alike but for independent noise. */
    public static Groove equal(double noiseDb) {
      return new Groove(0, 0, false, noiseDb, noiseDb, 0);
    }

    public Groove withDelay(double frames) {
      return new Groove(frames, balanceDb, opposed, leftNoiseDb, rightNoiseDb, noiseAlike);
    }

    public Groove withBalance(double db) {
      return new Groove(delayFrames, db, opposed, leftNoiseDb, rightNoiseDb, noiseAlike);
    }

    public Groove reversed() {
      return new Groove(delayFrames, balanceDb, !opposed, leftNoiseDb, rightNoiseDb, noiseAlike);
    }

    public Groove withNoise(double leftDb, double rightDb, double alike) {
      return new Groove(delayFrames, balanceDb, opposed, leftDb, rightDb, alike);
    }
  }

  /**
   * The tune of the demonstration, played once or over and over, on such a groove.
   *
   * @param rate samples a second
   */
  public static TwoWalls tune(Groove groove, double seconds, int rate, long seed) {
    Chance chance = new Chance(seed);
    double[] once = Band.play(rate, Tune.seconds(), chance.fork(1));
    double[] source = new double[(int) Math.round(seconds * rate)];
    for (int i = 0; i < source.length; i++) {
      source[i] = once[i % once.length];
    }
    return of(source, groove, seed);
  }

  /** Any sound on such a groove; it is brought to a root mean square of 0.1. */
  public static TwoWalls of(double[] sound, Groove groove, long seed) {
    int n = sound.length;
    double power = 0;
    for (double v : sound) {
      power += v * v / n;
    }
    double[] source = new double[n];
    for (int i = 0; i < n; i++) {
      source[i] = 0.1 * sound[i] / Math.sqrt(power);
    }
    double[][] music = {source.clone(), delayed(source, groove.delayFrames())};
    double gain = StrictMath.pow(10, groove.balanceDb() / 20) * (groove.opposed() ? -1 : 1);
    double[][] samples = new double[2][n];
    Chance chance = new Chance(seed).fork(2);
    double left = 0.1 * StrictMath.pow(10, groove.leftNoiseDb() / 20);
    double right = 0.1 * StrictMath.pow(10, groove.rightNoiseDb() / 20);
    double alike = groove.noiseAlike();
    double own = Math.sqrt(1 - alike * alike);
    for (int i = 0; i < n; i++) {
      music[1][i] *= gain;
      double a = chance.gaussian();
      double b = alike * a + own * chance.gaussian();
      samples[0][i] = music[0][i] + left * a;
      samples[1][i] = music[1][i] + right * b;
    }
    return new TwoWalls(samples, music, source);
  }

  /** Turns the phase of every frequency; what is carried over the ends is silence first. */
  private static double[] delayed(double[] x, double frames) {
    int size = 2;
    while (size < x.length + 4096) {
      size *= 2;
    }
    double[] a = new double[size];
    System.arraycopy(x, 0, a, 0, x.length);
    RealFft fft = new RealFft(size);
    fft.forward(a);
    for (int k = 1; k < size / 2; k++) {
      double turn = -2 * Math.PI * k * frames / size;
      double c = StrictMath.cos(turn);
      double s = StrictMath.sin(turn);
      double real = a[2 * k] * c - a[2 * k + 1] * s;
      a[2 * k + 1] = a[2 * k] * s + a[2 * k + 1] * c;
      a[2 * k] = real;
    }
    a[1] *= StrictMath.cos(Math.PI * frames);
    fft.inverse(a);
    return java.util.Arrays.copyOf(a, x.length);
  }
}
