package org.groovemend.hum;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.stage.RangeReader;

/**
 * Finds the families, follows them and says what to take out. Reads the side some eight times at
 * most; keeps a few hundred numbers for every half second and nothing else: amplitudes and floors
 * of up to 20 lines a channel.
 */
public final class HumAnalyser {
  private static final double[] MAINS = {50, 60};

  /** Shortest side that is judged. */
  static final double LEAST_SECONDS = 4;

  private static final double HOP_SECONDS = 0.5;

  /** Lines whose phases correct the track. */
  private static final int GUIDES = 8;

  private static final int ROUNDS = 3;

  private final LowRate low;
  private final HumParameters parameters;
  private final int hop;
  private final int knots;
  private final double seconds;
  private String likeliest = "";
  private double likeliestDecibans = Double.NEGATIVE_INFINITY;

  private HumAnalyser(RangeReader side, HumParameters parameters) {
    this.low = new LowRate(side);
    this.parameters = parameters;
    this.hop = (int) Math.round(HOP_SECONDS * low.rate());
    this.knots = (int) ((low.length() - 1 + hop - 1) / hop) + 1;
    this.seconds = side.format().seconds(side.frames());
  }

  /**
   * Looks for hum.
   *
   * @param side as captured or as any stage leaves it
   * @param parameters not neutral
   */
  public static HumStage analyse(RangeReader side, HumParameters parameters) throws IOException {
    if (parameters.isNeutral()) {
      return new HumStage(parameters, HumFinding.none("Switched off by its settings."), List.of());
    }
    return new HumAnalyser(side, parameters).run();
  }

  private HumStage run() throws IOException {
    if (seconds < LEAST_SECONDS) {
      return nothing("The side is shorter than 4 s: too short to tell hum from a note");
    }
    double[][] paths = PathSearch.paths(low, MAINS, knots, hop);
    List<HumModel> models = new ArrayList<>();
    List<HumFinding.Family> families = new ArrayList<>();
    List<String> words = new ArrayList<>();
    for (int m = 0; m < MAINS.length; m++) {
      FamilyFit fit = family(MAINS[m], paths[m], models);
      if (fit == null) {
        continue;
      }
      if (fit.isTestTone(energy())) {
        words.add(
            "A steady tone at "
                + String.format(Locale.ROOT, "%.2f", fit.strongest().hertz())
                + " Hz is all that the side holds: it was not taken for hum");
        continue;
      }
      models.add(fit.model());
      families.add(fit.family());
      words.add(HumFinding.inWords(fit.family()));
    }
    if (words.isEmpty()) {
      return nothing(
          "No line at a multiple of 50 or 60 Hz is certain to last all through the side"
              + likeliest);
    }
    double factor = low.step();
    List<HumModel> atSideRate = new ArrayList<>();
    for (HumModel model : models) {
      atSideRate.add(new HumModel(model.track().scaled(factor), model.lines()));
    }
    return new HumStage(
        parameters, new HumFinding(families, String.join("; ", words) + "."), atSideRate);
  }

  private HumStage nothing(String reason) {
    return new HumStage(parameters, HumFinding.none(reason + "."), List.of());
  }

  /** Null if the family is not there. */
  private FamilyFit family(double mains, double[] path, List<HumModel> already) throws IOException {
    double[] cycles = new double[knots];
    double hopSeconds = hop / low.rate();
    for (int j = 1; j < knots; j++) {
      cycles[j] = cycles[j - 1] + (path[j - 1] + path[j]) / 2 * hopSeconds;
    }
    PhaseTrack track = new PhaseTrack(cycles, hop);
    double highest = Math.min(parameters.highestLineHertz(), 0.4 * low.rate());
    int lines = (int) (highest / mains + 1e-9);
    for (int round = 0; round < ROUNDS; round++) {
      int guides = Math.min(lines, round == 0 ? JudgedLines.ANCHORS : GUIDES);
      LineSeries[][] series = Measured.of(low, track, guides, hop, already);
      track = PhaseGuide.corrected(track, series, round == 0);
      if (track == null) {
        return null;
      }
    }
    LineSeries[][] series = Measured.of(low, track, lines, hop, already);
    JudgedLines judged = JudgedLines.of(series, parameters.evidenceDecibans());
    remember(judged, track.cycles()[knots - 1] / (knots - 1) / hopSeconds);
    return judged.certain() ? FamilyFit.of(mains, track, low.rate(), judged) : null;
  }

  private void remember(JudgedLines judged, double hertz) {
    JudgedLines.Likeliest line = judged.likeliest();
    if (line == null || line.evidence().decibans() <= likeliestDecibans) {
      return;
    }
    LineEvidence e = line.evidence();
    likeliestDecibans = e.decibans();
    likeliest =
        String.format(
            Locale.ROOT,
            "; the likeliest, at %.2f Hz, has evidence of %.0f decibans and would have stood out at %d moments, of which"
                + " it was missing at %d",
            hertz * line.harmonic(),
            e.decibans(),
            e.seen(),
            e.missing());
    if (judged.breaks().tooMany()) {
      likeliest +=
          String.format(
              Locale.ROOT,
              "; with its multiples it broke off at %d of %d moments, as a note does",
              judged.breaks().broken(),
              judged.breaks().seen());
    }
  }

  /** Mean square of the low band, all channels added. */
  private double energy() throws IOException {
    int block = 1 << 14;
    double[][] x = new double[low.channels()][block];
    double sum = 0;
    for (long at = 0; at < low.length(); at += block) {
      low.read(at, block, x);
      for (double[] channel : x) {
        double part = 0;
        for (double v : channel) {
          part += v * v;
        }
        sum += part;
      }
    }
    return sum / low.length();
  }
}
