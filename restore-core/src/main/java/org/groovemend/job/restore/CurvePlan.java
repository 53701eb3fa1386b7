package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.cartridge.ChosenLoading;
import org.groovemend.cartridge.LoadedCoil;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.ChosenCurve;
import org.groovemend.playback.CurveChange;
import org.groovemend.playback.CurveParameters;
import org.groovemend.playback.CurveStage;
import org.groovemend.playback.CurveTaken;
import org.groovemend.playback.NamedCurve;
import org.groovemend.playback.PlaybackCurve;
import org.groovemend.playback.PlaybackFilter;
import org.groovemend.stage.StageId;

/** What can be said of a playback curve before and after it is applied to a side. */
public final class CurvePlan {

  private CurvePlan() {}

  /**
   * Before anything is read.
   *
   * @throws RequestRefusedException if the settings contradict one another
   */
  public static void requireSensible(Treatment treatment) {
    if (!treatment.has(StageId.CURVE)) {
      return;
    }
    CurveParameters p = treatment.curve();
    if (p.isNeutral()) {
      throw new RequestRefusedException(
          "the stage curve was asked for but no curve was named; say which with --curve, 'groovemend curve' lists them, or a loading with --loading");
    }
    PlaybackCurve undo = p.undone().curve();
    if (treatment.captured().isFlat() && !undo.isFlat()) {
      throw new RequestRefusedException(
          "the side is stated as captured flat: there is no curve to undo; leave out --undo-curve, or state how it was"
              + " captured");
    }
    if (!treatment.captured().isCurved()) {
      return;
    }
    String through =
        "the side is stated as captured through the curve " + treatment.captured().key();
    if (undo.isFlat() && !p.applied().curve().isFlat()) {
      throw new RequestRefusedException(
          through
              + ", and a second curve on top of it would be wrong; undo the first with --undo-curve "
              + treatment.captured().key());
    }
    if (!undo.isFlat() && !undo.equals(treatment.captured().chosen().curve())) {
      throw new RequestRefusedException(
          through + ", but " + p.undo() + " is to be undone; state one and the same");
    }
  }

  /**
   * Before the side is treated.
   *
   * @throws RequestRefusedException if the curve cannot be made at the side's rate
   */
  public static void requireRealisable(CurveParameters curve, AudioFormat format) {
    try {
      new CurveStage(curve).segmentation(format);
    } catch (IllegalArgumentException e) {
      throw new RequestRefusedException(e.getMessage());
    }
  }

  /**
   * Before clicks are sought with the curve of the capture undone.
   *
   * @throws RequestRefusedException if it cannot be made at the side's rate
   */
  public static void requireRealisable(CaptureCurve captured, AudioFormat format) {
    try {
      PlaybackFilter.design(captured.curve(), format.sampleRateHz());
    } catch (IllegalArgumentException e) {
      throw new RequestRefusedException(e.getMessage());
    }
  }

  /**
   * What a person should know.
   *
   * @param captured as stated or as the clicks tell
   */
  static List<String> doubts(Treatment treatment, CaptureCurve captured) {
    List<String> doubts = new ArrayList<>();
    CurveParameters p = treatment.curve();
    boolean applies = !p.applied().curve().isFlat();
    if (!treatment.captured().isKnown() && applies && p.undone().curve().isFlat()) {
      doubts.add(
          captured.isCurved()
              ? "The clicks say that the transfer was made through a playback curve, and another was applied on top of it as"
                  + " asked: if they are right, undo the first with --undo-curve riaa."
              : "It was not stated how the transfer was made; the curve was applied as if it were flat.");
    }
    doubt(p.applied(), doubts);
    doubt(p.undone(), doubts);
    if (!p.loaded().isNone()) {
      doubts.add(
          "The loading of the pick-up was corrected by its electrical half alone: makers balance the resonance of the tip"
              + " against it, so the treble may have been right as it was. Listen to both.");
    }
    if (applies && p.applied().curve().endless() && !treatment.has(StageId.RUMBLE)) {
      doubts.add(
          "The curve "
              + p.apply()
              + " has no shelf: offset and warp rise with its bass down to 1 Hz. The rumble stage takes them out before it.");
    }
    return doubts;
  }

  private static void doubt(ChosenCurve chosen, List<String> doubts) {
    NamedCurve named = chosen.named();
    if (named == null || chosen.curve().isFlat()) {
      return;
    }
    if (named.status() == NamedCurve.Status.MEMORY) {
      doubts.add(
          "The constants of the curve " + named.key() + " are " + named.status().words() + ".");
    }
    if (!named.doubt().isEmpty()) {
      doubts.add("Doubt about the curve " + named.key() + ": " + named.doubt() + ".");
    }
  }

  /** For the ledger: what was done, down to the coefficients. */
  public static Map<String, Object> finding(CurveParameters p, int sampleRateHz) {
    CurveChange change = new CurveChange(p, sampleRateHz);
    Map<String, Object> finding = new LinkedHashMap<>();
    finding.put("undone", asMap(p.undone(), p.undoFactor()));
    finding.put("applied", asMap(p.applied(), p.applyFactor()));
    finding.put("loading", p.loaded().isNone() ? null : loading(p));
    finding.put("gainDb", p.gainDb());
    finding.put("sampleRateHz", sampleRateHz);
    finding.put("sections", change.sections());
    finding.put("reason", p.reason());
    return finding;
  }

  private static Map<String, Object> loading(CurveParameters p) {
    ChosenLoading loaded = p.loaded();
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("loading", loaded.text());
    map.put("captured", asMap(loaded.actual()));
    map.put("ideal", loaded.ideal() == null ? null : asMap(loaded.ideal()));
    map.put("mostDb", p.loadingMostDb());
    map.put("scaledBy", p.undoFactor());
    return map;
  }

  private static Map<String, Object> asMap(LoadedCoil coil) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("millihenry", 1e3 * coil.henry());
    map.put("coilOhms", coil.coilOhms());
    map.put("loadOhms", coil.loadOhms());
    map.put("picofarad", 1e12 * coil.farad());
    return map;
  }

  private static Map<String, Object> asMap(ChosenCurve chosen, double factor) {
    PlaybackCurve curve = chosen.curve();
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("curve", chosen.text());
    map.put("name", chosen.named() == null ? null : chosen.named().name());
    map.put("highPassMicroseconds", curve.highPassMicroseconds());
    map.put("shelfMicroseconds", curve.shelfMicroseconds());
    map.put("turnoverMicroseconds", curve.turnoverMicroseconds());
    map.put("trebleMicroseconds", curve.trebleMicroseconds());
    map.put("scaledBy", factor);
    return map;
  }

  /** Behind "a playback curve was". */
  public static String doneInWords(CurveParameters p) {
    List<String> parts = new ArrayList<>();
    if (!p.undone().curve().isFlat()) {
      parts.add("undone (" + p.undo() + ")");
    }
    if (!p.applied().curve().isFlat()) {
      parts.add((parts.isEmpty() ? "" : "another ") + "applied (" + p.apply() + ")");
    }
    if (parts.isEmpty()) {
      parts.add("left out");
    }
    if (!p.loaded().isNone()) {
      parts.add("the loading of the pick-up corrected (" + p.loading() + ")");
    } else if (parts.get(0).equals("left out")) {
      return " left out, the gain alone set";
    }
    return " " + String.join(" and ", parts);
  }

  /** For the page. */
  static String account(CurveParameters p, CurveTaken taken) {
    StringBuilder text = new StringBuilder();
    if (!p.undone().curve().isFlat()) {
      text.append("Undone: ").append(scaled(p.undone(), p.undoFactor())).append(". ");
    }
    if (!p.applied().curve().isFlat()) {
      text.append("Applied: ").append(scaled(p.applied(), p.applyFactor())).append(". ");
    }
    if (!p.loaded().isNone()) {
      text.append("Loading corrected: ").append(p.loaded().inWords()).append(". ");
    }
    text.append(
        String.format(
            Locale.ROOT,
            "Unit gain at 1 kHz, then %s dB. Peak before %s, after %s dBFS. ",
            SideFindings.db(p.gainDb()),
            SideFindings.db(taken.peakBeforeDbfs()),
            SideFindings.db(taken.peakAfterDbfs())));
    text.append(
        p.reason().isEmpty() ? "No reason was given for the choice." : "Reason: " + p.reason());
    return text.toString();
  }

  private static String scaled(ChosenCurve chosen, double factor) {
    return factor == 1
        ? chosen.inWords()
        : String.format(
            Locale.ROOT, "%s, its constants times %.4f for the speed", chosen.inWords(), factor);
  }

  /**
   * After the run: is there room for what came out?
   *
   * @return a remark, for words that hold more than full scale
   * @throws RequestRefusedException if samples of the clean copy would have to be cut off
   */
  static Optional<String> requireRoom(
      RestoreRequest request, CurveTaken taken, AudioFormat format) {
    if (taken.overSamples() == 0) {
      return Optional.empty();
    }
    double room = request.treatment().curve().gainDb() - Math.ceil(10 * taken.peakAfterDbfs()) / 10;
    String over =
        String.format(
            Locale.ROOT,
            "after the curve the side would peak at %+.2f dBFS, %d samples above full scale",
            taken.peakAfterDbfs(),
            taken.overSamples());
    if (format.coding() == SampleCoding.FLOAT) {
      return Optional.of(
          upper(over)
              + ". Float words hold that; before it goes into a format of integers it must come down.");
    }
    throw new RequestRefusedException(
        String.format(
            Locale.ROOT,
            "%s; nothing was written: give it --curve-gain %.1f or less (gainDb of the curve in a file), and all sides of a set the same",
            over,
            room));
  }

  private static String upper(String sentence) {
    return sentence.substring(0, 1).toUpperCase(Locale.ROOT) + sentence.substring(1);
  }
}
