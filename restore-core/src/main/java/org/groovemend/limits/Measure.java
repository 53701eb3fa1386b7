package org.groovemend.limits;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** Everything that an inspection tells, in the order in which it tells it. */
public enum Measure {
  SAMPLE_RATE("Sample rate", "Hz", 0, "frames a second of the file"),
  WORD_LENGTH("Word length", "bits", 0, "bits of a word that are to carry sound"),
  FIXITY(
      "File unchanged",
      "",
      "unchanged, differs",
      "whether the file is the one that a checksum beside it names; unknown without one"),
  METADATA(
      "Broadcast metadata",
      "",
      "complete, incomplete, absent",
      "bext chunk (EBU Tech 3285) with description, originator and date; WAV only"),
  NEEDLE_DROP("Needle drop", "", "present, absent", "the file begins with the stylus up"),
  LEAD_IN("Lead-in", "", "present, absent", "bare groove before the music"),
  RUN_OUT("Run-out", "", "present, absent", "bare groove behind the music"),
  LIFT("Lift", "", "present, absent", "the file ends with the stylus up"),
  SILENCE_INSIDE(
      "Digital silence inside", "s", 2, "longest stretch of zeros with sound before and behind it"),
  SILENCE_AT_ENDS("Digital silence at the ends", "s", 2, "zeros at the beginning or the end"),
  INTERRUPTIONS("Interruptions", "places", 0, "zeroed, held or repeated blocks of words"),
  REPEATED_TURNS(
      "Repeated turns",
      "turns",
      1,
      "most turns in a row of music that come again exactly one turn later"),
  SAMPLE_PEAK("Sample peak", "dBFS", 1, "largest sample, clicks and all"),
  TRUE_PEAK("True peak", "dBTP", 1, "ITU-R BS.1770, clicks and all"),
  LOUDNESS("Loudness", "LUFS", 1, "integrated, ITU-R BS.1770, of all that is in the file"),
  CLIPPED_IN_MUSIC(
      "Clipped runs in music",
      "a minute",
      1,
      "runs of 3 or more equal samples at the extreme, in sound as loud"),
  CLIPPED_CLICKS("Clipped clicks", "a minute", 1, "the same at the tops of clicks"),
  OVERLOAD(
      "Overload of an analogue stage",
      "",
      "none, suspected",
      "extremes crowd just below the highest, at or below full scale"),
  HEADROOM_MUSIC(
      "Headroom of music", "dB", 1, "from full scale down to the peaks of what lasts 10 ms"),
  HEADROOM_CLICKS("Headroom of clicks", "dB", 1, "from full scale down to the largest sample"),
  OFFSET("Offset", "dBFS", 1, "mean of a channel, the larger"),
  OFFSET_DRIFT("Drift of the offset", "dBFS", 1, "largest less smallest mean of parts of the side"),
  USED_BITS("Bits that carry sound", "bits", 0, "from the highest to the lowest that ever changes"),
  COARSER_SECONDS(
      "Coarser passages", "s", 0, "seconds of sound in at least 4 bits fewer than elsewhere"),
  CODES_MET(
      "Codes met near zero",
      "",
      2,
      "re what noise would meet; far below 1: fewer bits times a gain"),
  BAND_EDGE(
      "Wall in the spectrum",
      "Hz",
      0,
      "where the spectrum falls by 12 dB or more in a tenth of an octave, well below half the rate"),
  GROOVE_NOISE(
      "Groove noise", "dBFS(A)", 1, "bare groove, A-weighted, pops left out, mean of the channels"),
  CHAIN_MARGIN(
      "Chain below groove", "dB", 1, "level with the stylus up re bare groove, above 100 Hz"),
  SIGNAL_TO_NOISE("Signal to noise", "dB(A)", 1, "loudest 3 s re bare groove, both A-weighted"),
  HUM("Hum", "dB", 1, "strongest mains line over its neighbourhood in 1 s windows"),
  RUMBLE_LATERAL(
      "Lateral rumble",
      "dB",
      1,
      "lateral part, 20 Hz to the upper end of the vertical bass, re loud music"),
  RUMBLE_VERTICAL("Vertical rumble", "dB", 1, "vertical part of the same band re loud music"),
  WALLS(
      "Signals of the walls",
      "",
      "lateral, lateral_reversed, vertical, opposed, stereo, undecided, one_wall, silent, one_channel",
      "what the two walls hold"),
  BALANCE("Balance of the walls", "dB", 2, "right re left, of what both share, magnitude"),
  CORRELATION("Correlation of the walls", "", 3, "250 Hz to 4 kHz, as wired"),
  WALL_DELAY("Delay between the walls", "us", 2, "right behind left, magnitude"),
  TICKS("Ticks", "a minute", 1, "short pulses of both walls, the whole side"),
  TICKS_LEFT("Ticks, left wall", "a minute", 1, "short pulses"),
  TICKS_RIGHT("Ticks, right wall", "a minute", 1, "short pulses"),
  TICKS_A_TURN("Ticks a turn", "", 2, "of both walls; needs the speed of the turntable"),
  ONCE_A_TURN("Ticks that recur", "%", 1, "share of ticks that lie in rows which come once a turn"),
  CLICK_RATE(
      "Clicks to repair",
      "a minute",
      0,
      "repairs that the clicks stage would make, from a sample of the side"),
  TURNTABLE("Turntable off its speed", "%", 2, "re the nearest nominal speed, magnitude"),
  WOW("Wow", "% p-p", 3, "once-a-turn sway of pitch, peak to peak, in the middle of the side"),
  TUNING("Tuning", "cents", 1, "how far the notes lie off equal steps from A = 440 Hz"),
  PITCH_DRIFT("Drift of pitch", "cents", 1, "largest less smallest tuning over the side"),
  CURVE(
      "Curve at capture",
      "",
      "as stated, flat, curved",
      "what the clicks tell of a playback curve in the chain");

  private final String label;
  private final String unit;
  private final int decimals;
  private final List<String> words;
  private final String about;

  Measure(String label, String unit, int decimals, String about) {
    this.label = label;
    this.unit = unit;
    this.decimals = decimals;
    this.words = List.of();
    this.about = about;
  }

  Measure(String label, String unit, String words, String about) {
    this.label = label;
    this.unit = unit;
    this.decimals = 0;
    this.words = Arrays.asList(words.split(", "));
    this.about = about;
  }

  /** As files and JSON name it: "needle-drop". */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public String label() {
    return label;
  }

  public String unit() {
    return unit;
  }

  /** The words that it can be, empty for a number. */
  public List<String> words() {
    return List.copyOf(words);
  }

  /** What is measured. */
  public String about() {
    return about;
  }

  String print(double value) {
    if (Double.isInfinite(value)) {
      return value < 0 ? "-inf" : "inf";
    }
    String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
    return text.matches("-0(\\.0*)?") ? text.substring(1) : text;
  }

  /** All keys, in order. */
  public static List<String> keys() {
    return Arrays.stream(values()).map(Measure::key).toList();
  }

  /**
   * The measure of a key.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Measure ofKey(String key) {
    return Arrays.stream(values())
        .filter(m -> m.key().equals(key))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("there is no measure \"" + key + "\""));
  }
}
