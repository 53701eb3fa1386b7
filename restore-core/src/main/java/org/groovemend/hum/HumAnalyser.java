package org.groovemend.hum;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.signal.robust.Median;
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

  /** Lines of which one at least must be certain for the family to count. */
  private static final int ANCHORS = 3;

  /** Lines whose phases correct the track. */
  private static final int GUIDES = 8;

  private static final int ROUNDS = 3;
  private static final double FREEST_SEARCH = 0.1;
  private static final double FREEST = 0.01;

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
      if (fit.alone() && fit.energy() > 0.5 * energy()) {
        words.add(
            "A steady tone at "
                + String.format(Locale.ROOT, "%.2f", fit.family().lines().get(0).hertz())
                + " Hz is most of what the side holds: it was not taken for hum");
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

  private record FamilyFit(HumModel model, HumFinding.Family family, double energy) {
    /** One line in each channel at most. */
    boolean alone() {
      int harmonic = family.lines().get(0).harmonic();
      return family.lines().stream().allMatch(line -> line.harmonic() == harmonic);
    }
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
      int guides = Math.min(lines, round == 0 ? ANCHORS : GUIDES);
      LineSeries[][] series = Measured.of(low, track, guides, hop, already);
      double[] turned = turning(track, series);
      if (turned == null) {
        return null;
      }
      track = new PhaseTrack(turned, hop);
    }
    LineSeries[][] series = Measured.of(low, track, lines, hop, already);
    return judged(mains, track, series);
  }

  /**
   * Cycles of the fundamental as the lines' phases along a track tell them; null without a line.
   */
  private double[] turning(PhaseTrack track, LineSeries[][] series) {
    double[] sum = new double[knots];
    double[] weights = new double[knots];
    boolean any = false;
    for (LineSeries[] channel : series) {
      for (int k = 0; k < channel.length; k++) {
        if (channel[k] == null) {
          continue;
        }
        LineEvidence evidence = LineEvidence.of(channel[k]);
        if (evidence == null || evidence.decibans() <= 0) {
          continue;
        }
        any = true;
        Smoothed s = Smoothed.of(channel[k], evidence.trust(), evidence.level(), FREEST_SEARCH);
        add(channel[k], evidence.trust(), s, k + 1, sum, weights);
      }
    }
    if (!any) {
      return null;
    }
    double[] variance = new double[knots];
    for (int j = 0; j < knots; j++) {
      sum[j] = track.cycles()[j] + (weights[j] > 0 ? sum[j] / weights[j] : 0);
      variance[j] = 1 / weights[j];
    }
    return SteadyPhase.of(sum, variance);
  }

  /** Adds the measured phases, unwrapped along the smoothed ones, with their inverse variances. */
  private void add(
      LineSeries line, double[] trust, Smoothed s, int k, double[] sum, double[] weights) {
    double[] phase = new double[knots];
    double[] weight = new double[knots];
    double mean = 0;
    double total = 0;
    double smooth = 0;
    for (int j = 0; j < knots; j++) {
      if (j > 0) {
        double re = s.re()[j] * s.re()[j - 1] + s.im()[j] * s.im()[j - 1];
        double im = s.im()[j] * s.re()[j - 1] - s.re()[j] * s.im()[j - 1];
        smooth += StrictMath.atan2(im, re);
      }
      double power = s.re()[j] * s.re()[j] + s.im()[j] * s.im()[j];
      double re = line.re()[j] * s.re()[j] + line.im()[j] * s.im()[j];
      double im = line.im()[j] * s.re()[j] - line.re()[j] * s.im()[j];
      phase[j] = (smooth + StrictMath.atan2(im, re)) / (2 * Math.PI * k);
      double cycles = 2 * Math.PI * k;
      weight[j] = 2 * cycles * cycles * trust[j] * power / (LineSeries.SHARED * line.floor()[j]);
      mean += weight[j] * phase[j];
      total += weight[j];
    }
    if (!(total > 0)) {
      return;
    }
    for (int j = 0; j < knots; j++) {
      sum[j] += weight[j] * (phase[j] - mean / total);
      weights[j] += weight[j];
    }
  }

  private FamilyFit judged(double mains, PhaseTrack track, LineSeries[][] series) {
    int lines = series[0].length;
    LineEvidence[][] evidence = new LineEvidence[series.length][lines];
    boolean certain = false;
    for (int c = 0; c < series.length; c++) {
      for (int k = 0; k < lines; k++) {
        if (series[c][k] != null) {
          LineEvidence e = LineEvidence.of(series[c][k]);
          evidence[c][k] = e;
          remember(e, k, mean(track) * (k + 1));
          certain |=
              k < ANCHORS
                  && e != null
                  && e.steady()
                  && e.decibans() >= parameters.evidenceDecibans();
        }
      }
    }
    if (!certain) {
      return null;
    }
    List<HumModel.Line> taken = new ArrayList<>();
    List<HumFinding.Line> told = new ArrayList<>();
    double mean = mean(track);
    double energy = 0;
    for (int c = 0; c < series.length; c++) {
      for (int k = 0; k < lines; k++) {
        LineEvidence e = evidence[c][k];
        // the family is certain: a line of it needs less, but must be steady too
        if (e == null || !e.steady() || e.decibans() < parameters.evidenceDecibans() / 2) {
          continue;
        }
        Smoothed s = Smoothed.of(series[c][k], e.trust(), e.level(), FREEST);
        HumModel.Line line = shrunk(c, k + 1, s, series[c][k]);
        double[] power = new double[knots];
        for (int j = 0; j < knots; j++) {
          power[j] = line.re()[j] * line.re()[j] + line.im()[j] * line.im()[j];
          energy += power[j] / 2 / knots;
        }
        double middle = median(power);
        if (middle > 0) {
          taken.add(line);
          told.add(
              new HumFinding.Line(
                  c,
                  k + 1,
                  (k + 1) * mean,
                  10 * StrictMath.log10(middle),
                  10 * StrictMath.log10(middle / median(series[c][k].floor())),
                  e.decibans(),
                  e.seen(),
                  e.missing()));
        }
      }
    }
    if (taken.isEmpty()) {
      return null;
    }
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    for (int j = 0; j < knots; j++) {
      double hertz = track.slope(j) * low.rate() / hop;
      least = Math.min(least, hertz);
      most = Math.max(most, hertz);
    }
    return new FamilyFit(
        new HumModel(track, taken),
        new HumFinding.Family(mains, mean, least, most, hop / low.rate(), told),
        energy);
  }

  private double mean(PhaseTrack track) {
    return (track.cycles()[knots - 1] - track.cycles()[0]) / (knots - 1) * low.rate() / hop;
  }

  private void remember(LineEvidence e, int k, double hertz) {
    if (e != null && k < ANCHORS && e.decibans() > likeliestDecibans) {
      likeliestDecibans = e.decibans();
      likeliest =
          String.format(
              Locale.ROOT,
              "; the likeliest, at %.2f Hz, has evidence of %.0f decibans and would have stood out at %d moments, of which"
                  + " it was missing at %d",
              hertz,
              e.decibans(),
              e.seen(),
              e.missing());
    }
  }

  /**
   * Less than the estimate by its standard error, so that what the estimate took of the
   * neighbourhood's noise is left as that much of the line; nothing where the line plainly is not.
   */
  private static HumModel.Line shrunk(int channel, int harmonic, Smoothed s, LineSeries line) {
    double[] re = s.re().clone();
    double[] im = s.im().clone();
    for (int j = 0; j < re.length; j++) {
      double power = re[j] * re[j] + im[j] * im[j];
      double gain = Math.max(0, 1 - Math.sqrt(s.variance()[j] / power));
      double dx = line.re()[j] - re[j];
      double dy = line.im()[j] - im[j];
      double left = dx * dx + dy * dy;
      if (!(power > 0) || (left > line.power(j) && line.power(j) < power / 4)) {
        gain = 0;
      }
      re[j] *= gain;
      im[j] *= gain;
    }
    return new HumModel.Line(channel, harmonic, re, im);
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

  private static double median(double[] x) {
    return Median.of(x.clone(), 0, x.length);
  }
}
