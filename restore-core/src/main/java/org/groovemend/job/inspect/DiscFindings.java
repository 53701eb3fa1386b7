package org.groovemend.job.inspect;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.click.CaptureFinding;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.limits.Findings;
import org.groovemend.limits.Measure;
import org.groovemend.limits.Place;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.rotation.DiscSpeed;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rotation.Scratch;
import org.groovemend.speed.TuningFinding;
import org.groovemend.speed.WowFinding;
import org.groovemend.transfer.Ticks;
import org.groovemend.transfer.TurnRepeat;

/** Findings on the disc and its turning: repeated turns, ticks, turntable, pitch, curve. */
final class DiscFindings {

  private static final double WHOLE = 0.9;

  private DiscFindings() {}

  static void add(Findings to, AudioFormat format, SideListening heard, CaptureCurve stated) {
    repeats(to, format, heard);
    ticks(to, format, heard);
    turntable(to, heard);
    pitch(to, heard);
    curve(to, heard.capture(), stated);
  }

  private static void repeats(Findings to, AudioFormat format, SideListening heard) {
    LeadInFinding bare = heard.survey().leadIn();
    long from = bare.found() ? bare.endFrame() : 0;
    long end = bare.runOut() == null ? Long.MAX_VALUE : bare.runOut().startFrame();
    double most = 0;
    double likeness = 0;
    List<Place> places = new ArrayList<>();
    for (TurnRepeat one : heard.meters().repeats()) {
      // bare groove that is played round and round is a run-out
      if (one.toFrame() > from && one.fromFrame() < end) {
        if (one.turns() > most) {
          most = one.turns();
          likeness = one.likeness();
        }
        places.add(
            Place.of(
                one.fromFrame(),
                one.toFrame(),
                format.sampleRateHz(),
                -1,
                String.format(
                    Locale.ROOT,
                    "%.1f turns of %.3f s (%.2f rpm), likeness %.3f",
                    one.turns(),
                    one.turnSeconds(),
                    60 / one.turnSeconds(),
                    one.likeness())));
      }
    }
    to.number(
        Measure.REPEATED_TURNS,
        most,
        most == 0 ? Double.NaN : likeness,
        most == 0
            ? "Nothing comes again exactly one turn later. A jump forwards leaves no such trace and is not found."
            : most < WHOLE
                ? "Less than a turn comes again: the stylus jumped back once, or the music repeats itself."
                : "The same comes again one turn later: a stuck groove, a jump back, or music made of loops. Listen.",
        places);
  }

  private static void ticks(Findings to, AudioFormat format, SideListening heard) {
    Ticks ticks = heard.meters().ticks();
    RotationFinding rotation = heard.rotation();
    String sizes = "Small, medium, large (limits -40 and -20 dBFS): ";
    to.number(
        Measure.TICKS,
        ticks.perMinute(),
        Double.NaN,
        "Pulses that stand out of the treble, quickly counted; for comparing.");
    boolean two = format.channels() == 2;
    to.number(
        Measure.TICKS_LEFT, ticks.perMinute(0), Double.NaN, sizes + ticks.bySize().get(0) + ".");
    if (two) {
      to.number(
          Measure.TICKS_RIGHT, ticks.perMinute(1), Double.NaN, sizes + ticks.bySize().get(1) + ".");
    } else {
      to.unknown(Measure.TICKS_RIGHT, "The file has one channel.");
    }
    if (!DiscTurning.told(rotation)) {
      String none =
          "Nothing recurs once a turn of a disc ("
              + (rotation.found() ? rotation.speedInWords() : rotation.chanceInWords())
              + ").";
      to.unknown(Measure.TICKS_A_TURN, none);
      to.unknown(Measure.ONCE_A_TURN, none);
    } else {
      to.number(
          Measure.TICKS_A_TURN,
          ticks.perMinute() / rotation.rpm(),
          1 - rotation.chance(),
          "At " + rotation.speedInWords() + ".");
      long rows = 0;
      List<Place> places = new ArrayList<>();
      for (Scratch scratch : rotation.scratches()) {
        rows += scratch.frames().size();
        places.add(
            Place.of(
                scratch.firstFrame(),
                scratch.lastFrame(),
                format.sampleRateHz(),
                -1,
                scratch.turns() + " turns"));
      }
      to.number(
          Measure.ONCE_A_TURN,
          rotation.placesWeighed() == 0 ? 0 : 100.0 * rows / rotation.placesWeighed(),
          1 - rotation.chance(),
          rotation.scratches().size() + " rows: scratches, warps, a join.",
          places);
    }
    double minutes = format.seconds(heard.clicks().frames()) / 60;
    to.number(
        Measure.CLICK_RATE,
        heard.clicks().repairs().size() / minutes,
        Double.NaN,
        String.format(Locale.ROOT, "Counted in %.0f s spread over the side.", 60 * minutes));
  }

  private static void turntable(Findings to, SideListening heard) {
    RotationFinding rotation = heard.rotation();
    WowFinding wow = heard.speed().wow();
    double rpm = Double.NaN;
    double confidence = Double.NaN;
    String by = "";
    if (DiscTurning.told(rotation)) {
      rpm = rotation.rpm();
      confidence = 1 - rotation.chance();
      by = "ticks that recur, good to 0.3 %";
    }
    if (wow.found()) {
      rpm = 60 / wow.wow().turnSeconds();
      confidence = 1 - wow.chance();
      by = "the sway of pitch";
    }
    if (Double.isNaN(rpm)) {
      to.unknown(
          Measure.TURNTABLE,
          "Neither ticks nor pitch recur once a turn (" + rotation.chanceInWords() + ").");
      return;
    }
    DiscSpeed nominal = DiscSpeed.nearest(rpm);
    double off = rpm / nominal.rpm() - 1;
    to.number(
        Measure.TURNTABLE,
        100 * Math.abs(off),
        confidence,
        String.format(
            Locale.ROOT,
            "%.2f rpm by %s; nominal %s. Whether the disc was made for that is another question.",
            rpm,
            by,
            nominal.words()));
  }

  private static void pitch(Findings to, SideListening heard) {
    WowFinding wow = heard.speed().wow();
    if (wow.found()) {
      to.number(Measure.WOW, 200 * wow.peak(), 1 - wow.chance(), sentence(wow.reason()));
    } else {
      to.none(Measure.WOW, "none certain", Double.NaN, sentence(wow.reason()));
    }
    TuningFinding tuning = heard.speed().tuning();
    if (!tuning.found()) {
      to.unknown(Measure.TUNING, sentence(tuning.reason()));
      to.unknown(Measure.PITCH_DRIFT, sentence(tuning.reason()));
      return;
    }
    to.number(Measure.TUNING, tuning.cents(), 0.95, sentence(tuning.reason()));
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    double doubt = 0;
    for (TuningFinding.Moment moment : tuning.overTime()) {
      least = Math.min(least, moment.cents());
      most = Math.max(most, moment.cents());
      doubt = Math.max(doubt, moment.halfCents());
    }
    if (tuning.overTime().size() < 2) {
      to.unknown(Measure.PITCH_DRIFT, "Too few parts of the side tell their tuning.");
    } else if (most - least <= 2 * doubt) {
      to.none(
          Measure.PITCH_DRIFT,
          "none certain",
          0.95,
          String.format(
              Locale.ROOT,
              "Parts of the side differ by %.1f cents, each told within %.1f.",
              most - least,
              doubt));
    } else {
      to.number(
          Measure.PITCH_DRIFT,
          most - least,
          0.95,
          String.format(Locale.ROOT, "Parts of the side, each told within %.1f cents.", doubt));
    }
  }

  private static void curve(Findings to, CaptureFinding found, CaptureCurve stated) {
    if (stated.isKnown()) {
      to.word(
          Measure.CURVE,
          "as stated",
          Double.NaN,
          "Stated as " + stated.key() + "; the clicks were not asked.",
          List.of());
      return;
    }
    CaptureCurve curve = found.curve();
    if (!curve.isKnown()) {
      to.unknown(Measure.CURVE, sentence(found.inWords()));
      return;
    }
    to.word(
        Measure.CURVE,
        curve.equals(CaptureCurve.FLAT) ? "flat" : "curved",
        1 - StrictMath.pow(10, -Math.abs(found.decibans()) / 10),
        sentence(found.inWords()),
        List.of());
  }

  private static String sentence(String words) {
    if (words.isEmpty()) {
      return words;
    }
    String capital = words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    return capital.endsWith(".") ? capital : capital + ".";
  }
}
