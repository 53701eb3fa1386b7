package org.groovemend.walls;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.FractionalShift;
import org.groovemend.signal.window.WindowShape;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;
import org.groovemend.stage.StageNote;

/**
 * Aligns and weighs one segment. Frame f covers samples [(f - 1) hop, (f + 1) hop); passage q has
 * its middle at frame q times the frames of a passage: all counted from the first sample of the
 * side.
 */
final class MonoWorker implements SignalStage.Worker {
  private static final double ERROR_DB = 100;

  /** Gain and delay are kept to 20 kHz, or this share of a higher sampling rate. */
  private static final double HEARD_HERTZ = 20_000;

  private static final double PASS_SHARE = 0.42;
  private static final double MOST_SHARE = 20.0 / 44.1;

  /** A delay that drifts is taken anew so often; it moves by less than 1e-5 samples meanwhile. */
  private static final int DELAY_BLOCK = 256;

  private final MonoParameters parameters;
  private final WallFinding finding;
  private final WallFrames frames;
  private final OctaveBands octaves;
  private final int passage;
  private final FractionalShift shift;
  private final PassageWeights weights;
  private final double[] window;
  private final RealFft fft;
  private final double[] leftGain;
  private final int[] below;
  private final double[] share;
  private final double[] left;
  private final double[] right;
  private final double[] first;
  private final double[] second;
  private final double[][] apart;
  private final double[][] measured;
  private final double[][] parts;
  private final double[] sums;
  private final double[] now;
  private final List<StageNote> notes = new ArrayList<>();

  MonoWorker(MonoParameters parameters, WallFinding finding, int rate, Segmentation cut) {
    this.parameters = parameters;
    this.finding = finding;
    frames = WallFrames.of(rate);
    octaves = frames.octaves();
    passage = frames.framesIn(parameters.passageSeconds());
    shift = shifter(rate);
    int most = cut.segmentFrames() + cut.contextBefore() + cut.contextAfter();
    left = new double[most];
    right = new double[most];
    boolean local = local();
    int length = local ? frames.length() : 2;
    int hop = frames.hop();
    window = WindowShape.SQRT_HANN.periodic(length);
    fft = new RealFft(length);
    first = new double[length];
    second = new double[length];
    apart = new double[local ? cut.segmentFrames() / hop + 3 : 0][length];
    measured = new double[local ? most / hop + 4 : 0][2 * octaves.count()];
    parts = new double[local ? most / hop / passage + 4 : 0][octaves.count()];
    sums = new double[2 * octaves.count()];
    now = new double[octaves.count()];
    double[] balance = new double[octaves.count()];
    for (int b = 0; b < Math.min(balance.length, finding.bands().size()); b++) {
      balance[b] = finding.bands().get(b).balanceDb();
    }
    leftGain = new double[octaves.bins()];
    double[] rightGain = new double[octaves.bins()];
    below = new int[octaves.bins()];
    share = new double[octaves.bins()];
    for (int k = 0; k < octaves.bins(); k++) {
      below[k] = octaves.below(k);
      share[k] = octaves.share(k);
      double h = lean(octaves.between(balance, k));
      leftGain[k] = 1 - h;
      rightGain[k] = 1 + h;
    }
    weights = new PassageWeights(octaves, leftGain, rightGain);
  }

  private static FractionalShift shifter(int rate) {
    return new FractionalShift(
        Math.min(MOST_SHARE, Math.max(PASS_SHARE, HEARD_HERTZ / rate)), ERROR_DB);
  }

  /** Samples on each side that the shift needs. */
  static int reach(int rate, double largestDelay) {
    return shifter(rate).half() + (int) Math.ceil(largestDelay / 2) + 1;
  }

  private boolean local() {
    return parameters.result() == MonoParameters.Result.COMBINED
        && parameters.weights() == MonoParameters.Weights.LOCAL;
  }

  /** The share by which a wall's gain differs from the mean of both, right positive. */
  private static double lean(double balanceDb) {
    return StrictMath.tanh(balanceDb * StrictMath.log(10) / 40);
  }

  @Override
  public List<StageNote> notes() {
    return List.copyOf(notes);
  }

  @Override
  public void treat(SegmentWindow w, double[][] out) {
    notes.clear();
    int count = (int) (w.segmentEnd() - w.segmentStart());
    if (parameters.isNeutral()) {
      for (int c = 0; c < out.length; c++) {
        System.arraycopy(w.samples()[c], w.startIndex(), out[c], 0, count);
      }
      return;
    }
    if (finding.verdict() == Verdict.ONE_WALL) {
      int live = finding.balanceDb() < 0 ? 0 : 1;
      for (double[] channel : out) {
        System.arraycopy(w.samples()[live], w.startIndex(), channel, 0, count);
      }
      return;
    }
    int hop = frames.hop();
    long from = w.segmentStart() / hop;
    long to = (w.segmentEnd() - 1) / hop + 1;
    long firstPassage = Math.floorDiv(from, (long) passage);
    long lastPassage = Math.floorDiv(to, (long) passage) + 1;
    long low = local() ? Math.max(0, (firstPassage - 1) * passage + 1) : from;
    long high =
        local() ? Math.min((w.sideFrames() - 1) / hop + 1, (lastPassage + 1) * passage - 1) : to;
    long start = Math.max(0, (low - 1) * hop);
    long end = Math.min(w.sideFrames(), (high + 1) * hop);
    align(w, start, end);
    int offset = (int) (w.segmentStart() - start);
    if (parameters.result() == MonoParameters.Result.ALIGNED) {
      double h = lean(finding.balanceDb());
      for (int i = 0; i < count; i++) {
        out[0][i] = left[offset + i] / (1 - h);
        out[1][i] = right[offset + i] / (1 + h);
      }
      return;
    }
    for (int i = 0; i < count; i++) {
      out[0][i] = (left[offset + i] + right[offset + i]) / 2;
    }
    if (local()) {
      for (long f = low; f <= high; f++) {
        spectra(f, start, end);
        double[] into = f >= from && f <= to ? apart[(int) (f - from)] : apart[apart.length - 1];
        weights.measure(first, second, into, measured[(int) (f - low)]);
      }
      weigh(firstPassage, lastPassage, low, high);
      for (long f = from; f <= to; f++) {
        add(f, apart[(int) (f - from)], firstPassage, w, out[0]);
      }
      note(w, firstPassage, lastPassage);
    }
    System.arraycopy(out[0], 0, out[1], 0, count);
  }

  private void align(SegmentWindow w, long start, long end) {
    int window = (int) (start - w.firstFrame());
    long at = start;
    while (at < end) {
      long blockEnd = Math.min(end, (at / DELAY_BLOCK + 1) * DELAY_BLOCK);
      int count = (int) (blockEnd - at);
      int index = (int) (at - start);
      double middle = at / DELAY_BLOCK * DELAY_BLOCK + DELAY_BLOCK / 2.0;
      double half = finding.delay().at(middle, w.sideFrames()) / 2;
      shift.shift(w.samples()[0], w.length(), window + index, -half, left, index, count);
      shift.shift(w.samples()[1], w.length(), window + index, half, right, index, count);
      at = blockEnd;
    }
    if (finding.delay().opposed()) {
      for (int i = 0; i < end - start; i++) {
        right[i] = -right[i];
      }
    }
  }

  private void spectra(long f, long start, long end) {
    long begin = (f - 1) * frames.hop();
    int from = (int) Math.max(0, start - begin);
    int to = (int) Math.min(window.length, end - begin);
    Arrays.fill(first, 0);
    Arrays.fill(second, 0);
    int offset = (int) (begin - start);
    for (int i = from; i < to; i++) {
      first[i] = window[i] * left[offset + i];
      second[i] = window[i] * right[offset + i];
    }
    fft.forward(first);
    fft.forward(second);
  }

  private void weigh(long firstPassage, long lastPassage, long low, long high) {
    for (long q = firstPassage; q <= lastPassage; q++) {
      Arrays.fill(sums, 0);
      long middle = q * passage;
      for (long f = Math.max(low, middle - passage + 1);
          f <= Math.min(high, middle + passage - 1);
          f++) {
        double near = 1 - Math.abs(f - middle) / (double) passage;
        double[] m = measured[(int) (f - low)];
        for (int j = 0; j < sums.length; j++) {
          sums[j] += near * m[j];
        }
      }
      weights.parts(sums, parts[(int) (q - firstPassage)]);
    }
  }

  /** Adds the weighted difference of one frame. */
  private void add(long f, double[] spectrum, long firstPassage, SegmentWindow w, double[] out) {
    long q = Math.floorDiv(f, (long) passage);
    double toNext = (f - q * passage) / (double) passage;
    double[] here = parts[(int) (q - firstPassage)];
    double[] next = parts[(int) (q - firstPassage + 1)];
    for (int b = 0; b < now.length; b++) {
      now[b] = here[b] + toNext * (next[b] - here[b]);
    }
    for (int k = 1; k < octaves.bins() - 1; k++) {
      int b = below[k];
      double g = now[b];
      if (share[k] > 0) {
        g += share[k] * (now[b + 1] - g);
      }
      spectrum[2 * k] *= g;
      spectrum[2 * k + 1] *= g;
    }
    fft.inverse(spectrum);
    long begin = (f - 1) * frames.hop();
    int from = (int) Math.max(0, w.segmentStart() - begin);
    int to = (int) Math.min(window.length, w.segmentEnd() - begin);
    int offset = (int) (begin - w.segmentStart());
    for (int i = from; i < to; i++) {
      out[offset + i] += window[i] * spectrum[i];
    }
  }

  /** What the left wall has in the music, by octave, for each passage of the segment. */
  private void note(SegmentWindow w, long firstPassage, long lastPassage) {
    for (long q = firstPassage; q <= lastPassage; q++) {
      long at = q * passage * frames.hop();
      if (at >= w.segmentStart() && at < w.segmentEnd()) {
        double[] part = parts[(int) (q - firstPassage)];
        double[] shares = new double[part.length];
        for (int b = 0; b < shares.length; b++) {
          int bin =
              (int) Math.min(octaves.bins() - 1, OctaveBands.centreHertz(b) / octaves.binHertz());
          shares[b] = PassageWeights.thousandths(leftGain[bin] / 2 + part[b]);
        }
        notes.add(new StageNote(at, shares));
      }
    }
  }
}
