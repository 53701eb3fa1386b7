package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.chain.SignalWatch;
import org.groovemend.measure.CompensatedSum;
import org.groovemend.measure.Decibels;
import org.groovemend.stage.StageNote;
import org.groovemend.walls.MonoStage;

/**
 * What the mono stage did: its weights, passage by passage, as they go into the ledger, and how
 * much it changed. Weights take some 150 bytes a second of the side.
 */
public final class WallWeights implements SignalWatch {

  /** Name of the finding in the ledger. */
  public static final String FINDING = "wallWeights";

  private final List<StageNote> notes = new ArrayList<>();
  private final CompensatedSum power = new CompensatedSum();
  private double peak;
  private long changed;
  private long samples;

  @Override
  public void note(StageNote note) {
    notes.add(note);
  }

  @Override
  public void block(double[][] in, double[][] out, int count) {
    double sum = 0;
    for (int c = 0; c < in.length; c++) {
      for (int i = 0; i < count; i++) {
        double d = in[c][i] - out[c][i];
        sum += d * d;
        peak = Math.max(peak, Math.abs(d));
        changed += d == 0 ? 0 : 1;
      }
      samples += count;
    }
    power.add(sum);
  }

  /** Whether the walls were weighed passage by passage. */
  boolean told() {
    return !notes.isEmpty();
  }

  long changed() {
    return changed;
  }

  double removedRmsDbfs() {
    return samples == 0 ? Double.NEGATIVE_INFINITY : Decibels.ofPower(power.value() / samples);
  }

  double removedPeakDbfs() {
    return Decibels.ofAmplitude(peak);
  }

  /** Smallest, mean and largest share of the left wall in the octaves about 1 to 8 kHz. */
  double[] leftShares() {
    double least = 1;
    double most = 0;
    double sum = 0;
    int n = 0;
    List<Double> centres = MonoStage.octaveCentres(octaves());
    for (StageNote note : notes) {
      for (int b = 0; b < note.values().length; b++) {
        if (centres.get(b) >= 1000 && centres.get(b) <= 8000) {
          double share = note.values()[b];
          least = Math.min(least, share);
          most = Math.max(most, share);
          sum += share;
          n++;
        }
      }
    }
    return new double[] {least, sum / Math.max(1, n), most};
  }

  private int octaves() {
    return notes.isEmpty() ? 0 : notes.get(0).values().length;
  }

  /** For the ledger. */
  Map<String, Object> finding() {
    Map<String, Object> finding = new LinkedHashMap<>();
    finding.put("octaveCentresHertz", MonoStage.octaveCentres(octaves()));
    List<Long> frames = new ArrayList<>();
    List<List<Double>> shares = new ArrayList<>();
    for (StageNote note : notes) {
      frames.add(note.frame());
      List<Double> row = new ArrayList<>();
      for (double share : note.values()) {
        row.add(share);
      }
      shares.add(row);
    }
    finding.put("frames", frames);
    finding.put("leftShares", shares);
    return finding;
  }
}
