package org.groovemend.speed;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.groovemend.stage.ArrayRanges;

/**
 * Music by formula, heard at any speed: every note is worked out at the moment of the music that
 * the needle is at, so that wow is exact and no resampler is asked. Bass, chords and a melody with
 * vibrato, in twelve equal steps.
 */
final class InventedMusic {

  /** Where the music is when the needle is at a moment. */
  interface Needle {
    double musicSeconds(double seconds);
  }

  private record Note(
      double start,
      double length,
      double hertz,
      double level,
      double vibrato,
      double glide,
      int partials) {}

  private final List<Note> notes = new ArrayList<>();
  private final Random random;
  private final double glide;
  private final double shortest;
  private final double longest;

  /**
   * @param a4 pitch that all is tuned to
   * @param detuneCents standard deviation of each note's pitch
   */
  InventedMusic(
      long seed, double seconds, double a4, double detuneCents, double shortest, double longest) {
    this(seed, seconds, a4, detuneCents, shortest, longest, 0, false);
  }

  /**
   * @param glideCents standard deviation of how far each note slides in a second
   * @param everyVoice true for vibrato in all but the bass
   */
  InventedMusic(
      long seed,
      double seconds,
      double a4,
      double detuneCents,
      double shortest,
      double longest,
      double glideCents,
      boolean everyVoice) {
    this.glide = glideCents;
    double sway = everyVoice ? 20 : 0;
    random = new Random(seed);
    this.shortest = shortest;
    this.longest = longest;
    int key = random.nextInt(12);
    voice(seconds, a4, detuneCents, key, 36, 52, 0.25, 0, 4);
    voice(seconds, a4, detuneCents, key, 52, 64, 0.15, sway, 3);
    voice(seconds, a4, detuneCents, key, 58, 70, 0.15, sway, 3);
    voice(seconds, a4, detuneCents, key, 67, 84, 0.2, 35, 3);
  }

  private void voice(
      double seconds,
      double a4,
      double detune,
      int key,
      int low,
      int high,
      double level,
      double vibratoCents,
      int partials) {
    int[] scale = {0, 2, 4, 5, 7, 9, 11};
    double at = 0.1 * random.nextDouble();
    while (at < seconds) {
      double length = shortest + (longest - shortest) * random.nextDouble();
      int midi;
      do {
        midi = low + random.nextInt(high - low);
      } while (java.util.Arrays.binarySearch(scale, Math.floorMod(midi - key, 12)) < 0);
      double cents = detune * random.nextGaussian();
      double hertz = a4 * Math.pow(2, (midi - 69) / 12.0 + cents / 1200);
      double loud = level * (0.5 + random.nextDouble());
      if (random.nextDouble() < 0.85) {
        notes.add(
            new Note(
                at, length, hertz, loud, vibratoCents, glide * random.nextGaussian(), partials));
      }
      at += length;
    }
  }

  /** The transfer, with white noise of a standard deviation. */
  ArrayRanges heard(int rate, double seconds, double noise, Needle needle) {
    int n = (int) (rate * seconds);
    double[] x = new double[n];
    double[] music = new double[n];
    for (int i = 0; i < n; i++) {
      music[i] = needle.musicSeconds(i / (double) rate);
      x[i] = noise * random.nextGaussian();
    }
    for (Note note : notes) {
      int i = java.util.Arrays.binarySearch(music, note.start);
      i = i < 0 ? -i - 1 : i;
      double w = 2 * Math.PI * 5.6;
      for (; i < n && music[i] < note.start + note.length; i++) {
        double t = music[i] - note.start;
        double envelope =
            Math.min(1, t / 0.02)
                * Math.min(1, (note.length - t) / 0.03)
                * Math.exp(-t / (1.5 * note.length));
        double sway = note.vibrato / 1200 * Math.log(2) / w * (1 - Math.cos(w * t));
        double slide = note.glide / 1200 * Math.log(2) * t * t / 2;
        double phase = 2 * Math.PI * note.hertz * (t + sway + slide);
        double s1 = Math.sin(phase);
        double c1 = Math.cos(phase);
        double s = s1;
        double c = c1;
        for (int k = 1; k <= note.partials; k++) {
          x[i] += note.level * envelope * s / k;
          double next = s * c1 + c * s1;
          c = c * c1 - s * s1;
          s = next;
        }
      }
    }
    return ArrayRanges.of(rate, n, i -> x[i]);
  }
}
