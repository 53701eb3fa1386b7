package org.groovemend.simulate;

import java.util.List;
import java.util.Map;

/**
 * The tune: sixteen bars of four beats, A A' B A'', written for this project.
 *
 * <p>Notation of the melody: note name, octave, stroke, length in thirds of a beat; {@code -}
 * rests. Swung quavers are 2 + 1 thirds.
 */
final class Tune {

  static final double BEATS_PER_MINUTE = 176;
  static final int BARS = 16;
  static final int BEATS_PER_BAR = 4;

  private static final String A_OPENING =
      "A4/2 C5/1 F5/3 E5/2 F5/1 D5/3 A5/4 F#5/2 D5/2 E5/1 F#5/3 ";
  private static final String A_TURN = "G5/2 F5/1 D5/3 E5/2 D5/1 C5/3 ";

  /** The reed leads in the A parts. */
  static final String REED =
      A_OPENING
          + A_TURN
          + "F5/3 C5/2 A4/1 G4/3 -/3 "
          + A_OPENING
          + A_TURN
          + "F5/3 A5/2 G5/1 F5/3 -/3 "
          + "-/6 A4/2 B4/1 C#5/3 -/6 F#4/2 A4/1 D5/3 -/6 B4/3 G4/3 C5/6 E5/3 C5/3 "
          + A_OPENING
          + "Bb5/2 G5/1 D5/3 Db5/2 F5/1 Bb5/3 A5/2 G5/1 E5/2 G5/1 F5/5";

  /** Brass leads in the B part and rests elsewhere but for the ends of phrases. */
  static final String BRASS =
      "-/45 D4/1 E4/2 -/45 C4/1 E4/2 "
          + "E5/6 C#5/2 D5/1 E5/3 F#5/6 E5/2 F#5/1 A5/3 "
          + "G5/3 B4/2 D5/1 F5/3 D5/3 E5/3 C5/2 E5/1 G5/3 Bb4/2 A4/1 "
          + "-/24 G4/6 Bb4/6 A4/3 Bb4/3 C5/5";

  /** Two chords a bar. */
  static final List<String> CHORDS =
      List.of(
          "F F D7 D7 G7 C7 F C7 F F D7 D7 G7 C7 F F A7 A7 D7 D7 G7 G7 C7 C7 F F D7 D7 Gm Bbm C7 F"
              .split(" "));

  private static final Map<String, int[]> VOICINGS =
      Map.of(
          "F", new int[] {57, 60, 65, 69},
          "D7", new int[] {57, 60, 66, 69},
          "G7", new int[] {55, 59, 65, 71},
          "C7", new int[] {55, 60, 64, 70},
          "A7", new int[] {57, 61, 64, 67},
          "Gm", new int[] {55, 58, 62, 67},
          "Bbm", new int[] {53, 58, 61, 65});

  private static final Map<String, int[]> BASSES =
      Map.of(
          "F", new int[] {41, 36},
          "D7", new int[] {38, 33},
          "G7", new int[] {43, 38},
          "C7", new int[] {36, 43},
          "A7", new int[] {45, 40},
          "Gm", new int[] {43, 38},
          "Bbm", new int[] {46, 41});

  private static final Map<String, Integer> SEMITONES =
      Map.ofEntries(
          Map.entry("C", 0),
          Map.entry("C#", 1),
          Map.entry("Db", 1),
          Map.entry("D", 2),
          Map.entry("E", 4),
          Map.entry("F", 5),
          Map.entry("F#", 6),
          Map.entry("G", 7),
          Map.entry("A", 9),
          Map.entry("Bb", 10),
          Map.entry("B", 11));

  private Tune() {}

  static double beatSeconds() {
    return 60 / BEATS_PER_MINUTE;
  }

  static double seconds() {
    return BARS * BEATS_PER_BAR * beatSeconds();
  }

  /** Numbers of the keys, A4 = 69, of a chord. */
  static int[] voicing(String chord) {
    return VOICINGS.get(chord).clone();
  }

  /** Root and fifth. */
  static int[] bass(String chord) {
    return BASSES.get(chord).clone();
  }

  static double hz(int key) {
    return 440 * StrictMath.pow(2, (key - 69) / 12.0);
  }

  /**
   * The key of a written note, counted as a keyboard has it: 69 is a of 440 Hz.
   *
   * @return key number of a written note, or -1 for a rest
   */
  static int key(String written) {
    if (written.equals("-")) {
      return -1;
    }
    int octaveAt = written.length() - 1;
    int octave = written.charAt(octaveAt) - '0';
    return 12 * (octave + 1) + SEMITONES.get(written.substring(0, octaveAt));
  }
}
