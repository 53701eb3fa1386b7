package org.groovemend.audit;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.measure.Decibels;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.stage.RangeReader;

/**
 * What became of a recording, by measurement alone.
 *
 * @param alignment where it lies in the original
 * @param models what the whole of each channel is
 * @param transfer third octaves; empty where a gain suffices
 * @param gainDb gain by channel
 * @param floorDbfs what the models leave, robust standard deviation, by channel
 * @param differences ranges, with their count
 * @param levels stretches at another level, by channel
 * @param bands how soft and loud sound was lowered
 * @param course what is left over time
 */
record MeasuredAudit(
    Alignment alignment,
    Model[] models,
    List<TransferBand> transfer,
    double[] gainDb,
    double[] floorDbfs,
    DifferenceList differences,
    LevelFollower[] levels,
    List<SoftLoud> bands,
    DifferenceCourse course) {

  /** Bands that tell the gain where a filter acts. */
  private static final double GAIN_LOW_HERTZ = 250;

  private static final double GAIN_HIGH_HERTZ = 4000;

  /**
   * Lays one on the other and measures.
   *
   * @param derivativeWords what the derivative's words say
   * @return null if the derivative is nowhere in the original
   */
  static MeasuredAudit of(
      RangeReader original, RangeReader derivative, WordCensus derivativeWords, Watch watch)
      throws IOException {
    watch.at(0, derivative.frames());
    Alignment alignment = new Aligner(original, derivative).run();
    if (alignment == null) {
      return null;
    }
    int rate = derivative.format().sampleRateHz();
    double step = derivativeWords.step(derivative.format());
    double part = alignment.part();
    long whole = (long) Math.floor(part);
    RangeReader timeline = Aligner.timeline(original, rate, alignment.factor(), part - whole);
    RangeReader compared = derivative;
    if (timeline != original) {
      // converters differ in how they end the band: what lies there is not compared
      double lower = Math.min(1, original.format().sampleRateHz() / (rate * alignment.factor()));
      timeline = new BandLimited(timeline, lower);
      compared = new BandLimited(derivative, lower);
    }
    AlignedSide aligned = new AlignedSide(timeline, alignment.moved(whole), derivative.frames());
    Model[] models = new ModelChoice(aligned, compared, step).run();
    if (part != 0
        && Aligner.timeline(original, rate, alignment.factor()) == original
        && filtered(models)) {
      // a filter's own delay is no part of the place, and a filter holds any delay
      aligned = new AlignedSide(original, alignment.moved(Math.round(part)), derivative.frames());
      compared = derivative;
      models = new ModelChoice(aligned, compared, step).run();
    }
    double placeDoubt = timeline == original ? 0 : alignment.placeDoubt(derivative.frames());
    ResidualScan scan =
        new ResidualScan(aligned, compared, models, placeDoubt, step, derivativeWords.peaks());
    scan.run(watch);
    List<TransferBand> transfer = new ArrayList<>();
    double[] gains = new double[models.length];
    double[] floors = new double[models.length];
    double highest = Math.min(rate, original.format().sampleRateHz()) / 2.0;
    for (int c = 0; c < models.length; c++) {
      floors[c] = Decibels.ofAmplitude(models[c].floor());
      gains[c] = Decibels.ofAmplitude(Math.abs(models[c].gain()));
      if (models[c].taps() != null) {
        List<TransferBand> bands = transfer(models[c], c, rate, highest);
        transfer.addAll(bands);
        double[] middle =
            bands.stream()
                .filter(b -> b.centreHertz() > GAIN_LOW_HERTZ && b.centreHertz() < GAIN_HIGH_HERTZ)
                .mapToDouble(TransferBand::gainDb)
                .sorted()
                .toArray();
        if (middle.length > 0) {
          gains[c] = middle[middle.length / 2];
        }
      }
    }
    return new MeasuredAudit(
        alignment,
        models,
        transfer,
        gains,
        floors,
        scan.differences(),
        scan.levels(),
        scan.census().bands(),
        scan.course());
  }

  private static boolean filtered(Model[] models) {
    for (Model model : models) {
      if (model.taps() != null) {
        return true;
      }
    }
    return false;
  }

  /** Third octaves of a filter (IEC 61260-1, base two), weighted by nothing. */
  private static List<TransferBand> transfer(Model model, int channel, int rate, double highest) {
    int half = model.taps().length / 2;
    int size = 4 * half;
    double[] h = new double[size];
    for (int i = -half; i <= half; i++) {
      h[(i + size) % size] += model.taps()[i + half];
    }
    new RealFft(size).forward(h);
    List<TransferBand> bands = new ArrayList<>();
    double hz = (double) rate / size;
    for (int i = -17; i <= 20; i++) {
      double centre = 1000 * StrictMath.pow(2, i / 3.0);
      int from = (int) Math.ceil(centre * StrictMath.pow(2, -1 / 6.0) / hz);
      int to = (int) Math.floor(centre * StrictMath.pow(2, 1 / 6.0) / hz);
      if (centre * StrictMath.pow(2, 1 / 6.0) > highest || to < from || from < 1) {
        continue;
      }
      double power = 0;
      double coherence = 0;
      for (int k = from; k <= to; k++) {
        power += h[2 * k] * h[2 * k] + h[2 * k + 1] * h[2 * k + 1];
        coherence += model.coherence()[k];
      }
      int n = to - from + 1;
      bands.add(new TransferBand(channel, centre, Decibels.ofPower(power / n), coherence / n));
    }
    return bands;
  }
}
