package org.groovemend.job.inspect;

import java.io.IOException;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.measure.Decibels;
import org.groovemend.measure.FrequencyWeighting;
import org.groovemend.measure.LevelTrack;
import org.groovemend.measure.LongTermSpectrum;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.StageNotPossibleException;
import org.groovemend.surfacenoise.GrooveNoise;
import org.groovemend.surfacenoise.NoiseAnalyser;
import org.groovemend.surfacenoise.NoiseParameters;

/**
 * Bare groove against the loudest music, both as captured.
 *
 * @param leadIn spectrum of the bare groove before the music, frames with pops left out; null if
 *     there is none long enough
 * @param runOut the like behind it, or null
 * @param loudestFrame where the loudest {@value #LOUDEST_SECONDS} s begin
 * @param loudest third octaves of these; empty for a side too short
 */
record GrooveStretches(
    GrooveNoise leadIn,
    GrooveNoise runOut,
    long loudestFrame,
    List<LongTermSpectrum.Band> loudest) {
  static final int LOUDEST_SECONDS = 3;

  /** Reads the stretches. */
  static GrooveStretches of(RangeReader side, LeadInFinding found, LevelTrack track)
      throws IOException {
    NoiseParameters parameters = NoiseParameters.defaults();
    GrooveNoise before = null;
    try {
      before = found.found() ? NoiseAnalyser.analyse(side, found, parameters) : null;
    } catch (StageNotPossibleException tooShort) {
      // stays unknown
    }
    AudioFormat format = side.format();
    int count = (int) Math.min(side.frames(), format.frames(LOUDEST_SECONDS));
    long from = Math.min(loudest(track, count), side.frames() - count);
    LongTermSpectrum spectrum = new LongTermSpectrum(format.sampleRateHz(), format.channels());
    double[][] x = new double[format.channels()][count];
    side.read(from, count, x);
    spectrum.accept(x, count);
    return new GrooveStretches(
        before,
        NoiseAnalyser.analyseRunOut(side, found, parameters),
        from,
        spectrum.thirdOctaves());
  }

  private static long loudest(LevelTrack track, int frames) {
    int slots = Math.max(1, frames / track.slotFrames());
    double best = -1;
    long at = 0;
    double sum = 0;
    for (int i = 0; i < track.slots(); i++) {
      sum += track.meanSquare(i);
      if (i >= slots) {
        sum -= track.meanSquare(i - slots);
      }
      if (sum > best) {
        best = sum;
        at = track.start(Math.max(0, i - slots + 1));
      }
    }
    return at;
  }

  /** The bare groove that tells most: that before the music, else that behind it; or null. */
  GrooveNoise groove() {
    return leadIn != null ? leadIn : runOut;
  }

  /** A-weighted level of the bare groove, mean power of the channels; NaN if there is none. */
  double grooveDbfs() {
    GrooveNoise groove = groove();
    if (groove == null) {
      return Double.NaN;
    }
    double power = 0;
    int channels = groove.power().length;
    for (int c = 0; c < channels; c++) {
      power +=
          StrictMath.pow(10, groove.levelDbfs(c, FrequencyWeighting.A::decibels) / 10) / channels;
    }
    return Decibels.ofPower(power);
  }

  /** A-weighted level of the loudest seconds; NaN if the side is too short. */
  double loudestDbfs() {
    double power = 0;
    for (LongTermSpectrum.Band band : loudest) {
      power +=
          StrictMath.pow(
              10, (band.levelDbfs() + FrequencyWeighting.A.decibels(band.centreHz())) / 10);
    }
    return loudest.isEmpty() ? Double.NaN : Decibels.ofPower(power);
  }
}
