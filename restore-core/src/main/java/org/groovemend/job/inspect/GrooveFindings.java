package org.groovemend.job.inspect;

import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.hum.HumFinding;
import org.groovemend.limits.Findings;
import org.groovemend.limits.Measure;
import org.groovemend.limits.Place;
import org.groovemend.rumble.RumbleFinding;
import org.groovemend.transfer.Completeness;
import org.groovemend.walls.DelayFinding;
import org.groovemend.walls.Verdict;
import org.groovemend.walls.WallFinding;

/** Findings on noise, hum, rumble and the two walls. */
final class GrooveFindings {

  private GrooveFindings() {}

  static void add(Findings to, AudioFormat format, SideListening heard) {
    noise(to, format, heard);
    hum(to, heard.hum());
    rumble(to, heard.rumble());
    walls(to, format, heard.walls());
  }

  private static void noise(Findings to, AudioFormat format, SideListening heard) {
    GrooveStretches stretches = heard.stretches();
    if (stretches.groove() == null) {
      String none = "No stretch of bare groove long enough was found.";
      to.unknown(Measure.GROOVE_NOISE, none);
      to.unknown(Measure.CHAIN_MARGIN, none);
      to.unknown(Measure.SIGNAL_TO_NOISE, none);
      return;
    }
    double groove = stretches.grooveDbfs();
    double confidence =
        heard.survey().leadIn().found()
            ? heard.survey().leadIn().confidence()
            : heard.survey().leadIn().runOut().confidence();
    to.number(
        Measure.GROOVE_NOISE,
        groove,
        confidence,
        "Third octaves are in the detail.",
        List.of(
            Place.of(
                stretches.groove().startFrame(),
                stretches.groove().endFrame(),
                format.sampleRateHz(),
                -1,
                "bare groove")));
    Completeness whole = Completeness.of(heard.survey().track(), heard.survey().leadIn());
    if (Double.isNaN(whole.stylusUpDbfs())) {
      to.unknown(Measure.CHAIN_MARGIN, "The stylus is never up in this file.");
    } else if (Double.isInfinite(whole.stylusUpDbfs())) {
      to.unknown(
          Measure.CHAIN_MARGIN, "With the stylus up every sample is zero: the chain is not heard.");
    } else {
      double level =
          heard.survey().leadIn().found()
              ? heard.survey().leadIn().levelDbfs()
              : heard.survey().leadIn().runOut().levelDbfs();
      to.number(
          Measure.CHAIN_MARGIN,
          level - whole.stylusUpDbfs(),
          confidence,
          "Noise of the chain alone should vanish beside that of the groove.");
    }
    to.number(
        Measure.SIGNAL_TO_NOISE,
        stretches.loudestDbfs() - groove,
        confidence,
        "Clicks are in the loudest seconds, left out of the groove.",
        List.of(
            Place.of(
                stretches.loudestFrame(),
                stretches.loudestFrame() + format.frames(GrooveStretches.LOUDEST_SECONDS),
                format.sampleRateHz(),
                -1,
                "loudest 3 s")));
  }

  private static void hum(Findings to, HumFinding hum) {
    HumFinding.Line most = null;
    for (HumFinding.Family family : hum.families()) {
      for (HumFinding.Line line : family.lines()) {
        most = most == null || line.overFloorDb() > most.overFloorDb() ? line : most;
      }
    }
    if (most == null) {
      to.none(Measure.HUM, "none", Double.NaN, hum.reason());
      return;
    }
    to.number(
        Measure.HUM,
        most.overFloorDb(),
        1 - StrictMath.pow(10, -Math.max(0, most.decibans()) / 10),
        String.format(
            Locale.ROOT, "%s The strongest line lies at %.2f Hz.", hum.reason(), most.hertz()));
  }

  private static void rumble(Findings to, RumbleFinding rumble) {
    if (!Double.isFinite(rumble.loudDbfs())) {
      to.unknown(Measure.RUMBLE_LATERAL, rumble.reason());
      to.unknown(Measure.RUMBLE_VERTICAL, rumble.reason());
      return;
    }
    String band =
        String.format(
            Locale.ROOT,
            "%.0f to %.0f Hz, the moments that a tenth is louder than; music that low is in it. ",
            rumble.bandLowHertz(),
            rumble.bandHighHertz());
    to.number(
        Measure.RUMBLE_LATERAL,
        rumble.lateralBandDbfs() - rumble.loudDbfs(),
        Double.NaN,
        band + rumble.reason());
    to.number(
        Measure.RUMBLE_VERTICAL,
        rumble.verticalBandDbfs() - rumble.loudDbfs(),
        Double.NaN,
        band + rumble.reason());
  }

  private static void walls(Findings to, AudioFormat format, WallFinding walls) {
    to.word(Measure.WALLS, walls.verdict().key(), walls.confidence(), walls.reason(), List.of());
    boolean mono = walls.verdict().mono();
    if (walls.verdict() == Verdict.STEREO || walls.verdict() == Verdict.UNDECIDED) {
      String stereo = "The walls do not carry one signal; the place of the players is in it.";
      to.unknown(Measure.BALANCE, stereo);
      to.none(
          Measure.CORRELATION,
          String.format(Locale.ROOT, "%.3f", walls.correlation()),
          Double.NaN,
          stereo);
      to.unknown(Measure.WALL_DELAY, stereo);
      return;
    }
    if (!mono) {
      String none = "There are no two walls to compare.";
      to.unknown(Measure.BALANCE, none);
      to.unknown(Measure.CORRELATION, none);
      to.unknown(Measure.WALL_DELAY, none);
      return;
    }
    if (Double.isInfinite(walls.balanceDoubtDb())) {
      to.unknown(Measure.BALANCE, "Too little is shared to tell.");
    } else {
      to.number(
          Measure.BALANCE,
          Math.abs(walls.balanceDb()),
          Double.NaN,
          String.format(
              Locale.ROOT,
              "The right wall is %.2f dB %s, standard deviation %.2f.",
              Math.abs(walls.balanceDb()),
              walls.balanceDb() < 0 ? "weaker" : "stronger",
              walls.balanceDoubtDb()));
    }
    to.number(
        Measure.CORRELATION,
        walls.correlation(),
        walls.confidence(),
        "By octave in the detail; about 1 for a lateral cut, -1 for a vertical one or a reversed lead.");
    DelayFinding delay = walls.delay();
    if (Double.isInfinite(delay.doubtSamples())) {
      to.unknown(Measure.WALL_DELAY, "No passage tells a delay.");
    } else {
      double micro = 1e6 / format.sampleRateHz();
      to.number(
          Measure.WALL_DELAY,
          micro * Math.abs(delay.samples()),
          Double.NaN,
          String.format(
              Locale.ROOT,
              "The right wall comes %.2f us %s, standard deviation %.2f; drift over the side %.2f us.",
              micro * Math.abs(delay.samples()),
              delay.samples() < 0 ? "earlier" : "later",
              micro * delay.doubtSamples(),
              micro * delay.driftSamples()));
    }
  }
}
