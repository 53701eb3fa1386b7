package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.chain.SideChain;
import org.groovemend.measure.EnergyChange;
import org.groovemend.measure.FrequencyWeighting;
import org.groovemend.playback.CurveStage;
import org.groovemend.report.Comparison;
import org.groovemend.report.Figure;
import org.groovemend.report.NumberTable;
import org.groovemend.report.Pictures;
import org.groovemend.surfacenoise.GrooveNoise;

/** Puts noise floor, onsets and decays into words. */
final class ComparisonPage {

  private static final String REPAIRS_ONLY =
      "Only single places were treated: every sample outside them is the same before and after, and so are onsets and decays.";

  private static final String CURVE =
      "A playback curve was applied or undone. Noise floor, onsets and decays before are those of the transfer through the same curve, so"
          + " that the change is what the other stages did.";

  private static final String NO_GROOVE =
      "Without bare groove nobody can say where a decay sinks into the noise, and no noise could be taken off at onsets.";

  private static final String HOW_KEPT =
      "Onset: the first 20 ms of a rise of at least 6 dB that stands 12 dB over the groove and stays. Decay: the last 300 ms of a"
          + " fall until it is 6 dB over the groove. Samples in repaired places are left out (with repairs: places they reach into)."
          + " The groove's own energy is taken off before and after; under music the noise may have been lowered less than in the"
          + " bare groove, in the extreme not at all (if noise stayed): the truth lies between the two medians. By chance:"
          + " standard deviation that chance in the noise gives a single place, for steady noise.";

  private ComparisonPage() {}

  /**
   * All that was compared.
   *
   * @param groove null if there was none to measure
   * @param kept empty if only places were repaired
   */
  static Comparison of(
      AudioFormat format, GrooveChange groove, SideChain chain, List<KeptMusic> kept) {
    if (groove == null) {
      return new Comparison(
          "No noise floor could be measured: no stretch is long enough and free of digital silence. "
              + (chain.wholeSignal() ? NO_GROOVE : REPAIRS_ONLY),
          kept.isEmpty() ? List.of() : List.of(kept(kept, format, NO_GROOVE)),
          List.of(),
          List.of());
    }
    List<NumberTable> main = new ArrayList<>(List.of(levels(groove)));
    String sentence = sentence(groove, format);
    if (!chain.wholeSignal()) {
      sentence += " " + REPAIRS_ONLY;
    } else {
      if (chain.stages().stream().anyMatch(CurveStage.class::isInstance)) {
        sentence += " " + CURVE;
      }
      main.add(kept(kept, format, groove.bareGroove() ? "" : NO_GROOVE));
    }
    return new Comparison(sentence, main, List.of(chart(groove)), List.of(bands(groove)));
  }

  private static String sentence(GrooveChange groove, AudioFormat format) {
    return String.format(
        Locale.ROOT,
        "Noise floor in %s, %.2f to %.2f s, of the transfer as it came and of the clean copy. %d and %d spectra averaged, those in"
            + " which clicks stand out left aside; a single line of the spectrum is sure to %.1f dB (standard deviation), a band to"
            + " less. 0 dBFS is the mean square of a constant 1.0.",
        groove.place().words(),
        format.seconds(groove.before().startFrame()),
        format.seconds(groove.before().endFrame()),
        groove.before().framesUsed(),
        groove.after().framesUsed(),
        Math.max(groove.before().uncertaintyDb(), groove.after().uncertaintyDb()));
  }

  private static Figure chart(GrooveChange groove) {
    return new Figure(
        "Noise floor in third octaves",
        "Level of the noise floor by third octave, before and after; the figures are in the table below.",
        "Orange squares: before. Blue discs: after. Mean power of the channels.",
        Pictures.chart(GrooveChart.of(groove)));
  }

  private static NumberTable levels(GrooveChange groove) {
    List<List<String>> rows = new ArrayList<>();
    int channels = groove.before().power().length;
    for (int c = 0; c < channels; c++) {
      String wall = SideFindings.wall(c, channels);
      rows.add(level("All frequencies, dB" + wall, groove, c, FrequencyWeighting.NONE));
      rows.add(level("A-weighted, dB(A)" + wall, groove, c, FrequencyWeighting.A));
    }
    return new NumberTable(
        "Noise floor from 20 Hz on, re full scale",
        List.of("Weighting", "Before", "After", "Change"),
        rows,
        "");
  }

  private static List<String> level(
      String name, GrooveChange groove, int channel, FrequencyWeighting weighting) {
    double before = groove.before().levelDbfs(channel, weighting::decibels);
    double after = groove.after().levelDbfs(channel, weighting::decibels);
    return List.of(name, db(before), db(after), change(before, after));
  }

  private static NumberTable bands(GrooveChange groove) {
    int channels = groove.before().power().length;
    List<String> titles = new ArrayList<>(List.of("Band, Hz"));
    for (String what : List.of("Before", "After", "Change")) {
      for (int c = 0; c < channels; c++) {
        titles.add(what + SideFindings.wall(c, channels));
      }
    }
    List<GrooveNoise.Band> before = groove.before().thirdOctaves();
    List<GrooveNoise.Band> after = groove.after().thirdOctaves();
    List<List<String>> rows = new ArrayList<>();
    for (int b = 0; b < before.size(); b++) {
      double hertz = before.get(b).centreHz();
      List<Double> x = before.get(b).levelDbfs();
      List<Double> y = after.get(b).levelDbfs();
      List<String> row = new ArrayList<>();
      row.add(String.format(Locale.ROOT, hertz < 100 ? "%.1f" : "%.0f", hertz));
      x.forEach(level -> row.add(db(level)));
      y.forEach(level -> row.add(db(level)));
      for (int c = 0; c < channels; c++) {
        row.add(change(x.get(c), y.get(c)));
      }
      rows.add(row);
    }
    return new NumberTable("Noise floor in third octaves (IEC 61260-1), dBFS", titles, rows, "");
  }

  private static NumberTable kept(List<KeptMusic> kept, AudioFormat format, String remark) {
    List<List<String>> rows = new ArrayList<>();
    for (KeptMusic music : kept) {
      String range = String.format(Locale.ROOT, "%.0f Hz and up", music.fromHertz());
      rows.add(places("Onsets, " + range, music.onsets(), format));
      rows.add(places("Decays, " + range, music.decays(), format));
      rows.add(places("Their last 100 ms", music.tails(), format));
    }
    return new NumberTable(
        "Energy of the music at onsets and decays, change in dB",
        List.of(
            "What",
            "Places",
            "Median",
            "If noise stayed",
            "Most lost",
            "At, s",
            "By chance",
            "With repairs"),
        rows,
        HOW_KEPT + (remark.isEmpty() ? "" : " " + remark));
  }

  private static List<String> places(String name, EnergyChange change, AudioFormat format) {
    if (change.count() == 0) {
      return List.of(name, "none told", "", "", "", "", "", "");
    }
    return List.of(
        name,
        Long.toString(change.count()),
        signed(change.medianDb()),
        signed(change.medianIfNoiseStayedDb()),
        change.worstDb() <= EnergyChange.LEAST_DB ? "all" : signed(change.worstDb()),
        String.format(Locale.ROOT, "%.2f", format.seconds(change.worstFrame())),
        String.format(Locale.ROOT, "\u00b1%.2f", change.chanceDb()),
        Long.toString(change.repaired()));
  }

  private static String signed(double db) {
    double hundredths = Math.rint(100 * db) / 100;
    return hundredths == 0 ? "0.00" : String.format(Locale.ROOT, "%+.2f", hundredths);
  }

  private static String db(double level) {
    return level < -250 ? "none" : String.format(Locale.ROOT, "%.1f", level);
  }

  private static String tenths(double db) {
    double tenths = Math.rint(10 * db) / 10;
    return tenths == 0 ? "0.0" : String.format(Locale.ROOT, "%+.1f", tenths);
  }

  private static String change(double before, double after) {
    return after < -250 ? before < -250 ? "0.0" : "all gone" : tenths(after - before);
  }
}
