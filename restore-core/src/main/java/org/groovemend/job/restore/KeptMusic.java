package org.groovemend.job.restore;

import java.io.IOException;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.measure.EnergyChange;
import org.groovemend.measure.GrooveEnergy;
import org.groovemend.measure.GrooveEnergyMeter;
import org.groovemend.measure.OnsetsAndDecays;
import org.groovemend.stage.RangeReader;

/**
 * What treatment left of onsets and decays, outside repaired places.
 *
 * @param fromHertz only what lies above was measured
 * @param onsets their first 20 ms
 * @param decays their last 300 ms
 * @param tails their last 100 ms
 */
public record KeptMusic(
    double fromHertz, EnergyChange onsets, EnergyChange decays, EnergyChange tails) {

  /** The whole sound but for rumble, and the range in which hiss lies. */
  private static final double[] CORNERS_HERTZ = {100, 2000};

  private static final int BLOCK_FRAMES = 1 << 16;

  /**
   * One meter a range, knowing what the bare groove holds there.
   *
   * @param before the transfer, through the curve of the treatment if there is one
   * @param music where music lies
   */
  static List<Meter> meters(
      RangeReader before,
      RangeReader after,
      GrooveChange groove,
      RepairLog repairs,
      MusicSpan music)
      throws IOException {
    List<Meter> meters = new ArrayList<>();
    AudioFormat format = before.format();
    for (double corner : CORNERS_HERTZ) {
      GrooveEnergy energy =
          groove == null || !groove.bareGroove()
              ? GrooveEnergy.unknown(corner)
              : energy(corner, before, after, groove, repairs);
      meters.add(
          new Meter(
              corner, new OnsetsAndDecays(format, energy, music.startFrame(), music.endFrame())));
    }
    return meters;
  }

  /**
   * A range and what measures it.
   *
   * @param fromHertz its lower end
   */
  record Meter(double fromHertz, OnsetsAndDecays places) {
    KeptMusic kept() {
      return new KeptMusic(fromHertz, places.onsets(), places.decays(), places.tails());
    }
  }

  private static GrooveEnergy energy(
      double corner, RangeReader before, RangeReader after, GrooveChange groove, RepairLog repairs)
      throws IOException {
    AudioFormat format = before.format();
    long start = groove.before().startFrame();
    long end = groove.before().endFrame();
    BitSet[] edits = edits(format.channels(), start, end, repairs);
    GrooveEnergyMeter meter = new GrooveEnergyMeter(format, corner, end - start);
    double[][] x = new double[format.channels()][BLOCK_FRAMES];
    double[][] y = new double[format.channels()][BLOCK_FRAMES];
    boolean[][] inEdit = new boolean[format.channels()][BLOCK_FRAMES];
    for (long at = start; at < end; at += BLOCK_FRAMES) {
      int count = (int) Math.min(BLOCK_FRAMES, end - at);
      before.read(at, count, x);
      after.read(at, count, y);
      for (int c = 0; c < inEdit.length; c++) {
        for (int i = 0; i < count; i++) {
          inEdit[c][i] = edits[c].get((int) (at - start) + i);
        }
      }
      meter.accept(x, y, inEdit, count);
    }
    return meter.finish();
  }

  /** Frames of a stretch that lie in repaired places, counted from its start. */
  private static BitSet[] edits(int channels, long start, long end, RepairLog repairs)
      throws IOException {
    BitSet[] edits = new BitSet[channels];
    for (int c = 0; c < channels; c++) {
      edits[c] = new BitSet();
    }
    try (RepairLog.Reader reader = repairs.read()) {
      for (LoggedRepair repair = reader.next();
          repair != null && repair.start() < end;
          repair = reader.next()) {
        if (repair.end() > start) {
          edits[repair.channel()].set(
              (int) (Math.max(start, repair.start()) - start),
              (int) (Math.min(end, repair.end()) - start));
        }
      }
    }
    return edits;
  }
}
