package org.groovemend.job.bands;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.Words;
import org.groovemend.bands.BandPiece;
import org.groovemend.bands.BandPlan;
import org.groovemend.bands.BandSurvey;
import org.groovemend.bands.Gap;
import org.groovemend.bands.GrooveSynth;
import org.groovemend.chain.Quantiser;
import org.groovemend.chain.SideChain;
import org.groovemend.job.side.RequestRefusedException;

/**
 * Fades at the ends of bands, into the noise of the groove and out of it: as the sound sinks, noise
 * of the same spectrum takes its place, so that the groove is heard all along and never digital
 * silence.
 *
 * @param inSeconds at the beginning, 0 for none
 * @param outSeconds at the end, 0 for none
 * @param grooveFrom first frame of the bare groove whose spectrum is taken
 * @param grooveTo end of it, exclusive
 * @param seed of noise and dither
 */
public record BandFade(
    double inSeconds, double outSeconds, long grooveFrom, long grooveTo, long seed) {

  /**
   * Fades with the noise of the longest sure gap, or of the lead-in.
   *
   * @throws RequestRefusedException if there is no bare groove to take it from
   */
  public static BandFade of(BandSurvey survey, double in, double out, long seed) {
    Gap best = null;
    for (Gap gap : survey.gaps()) {
      if (gap.confidence() >= 0.7 && (best == null || gap.frames() > best.frames())) {
        best = gap;
      }
    }
    if (best != null) {
      long third = best.frames() / 3;
      return new BandFade(in, out, best.startFrame() + third, best.endFrame() - third / 4, seed);
    }
    if (survey.leadIn().found()) {
      return new BandFade(in, out, survey.leadIn().startFrame(), survey.leadIn().endFrame(), seed);
    }
    throw new RequestRefusedException(
        "there is no bare groove in this side to fade into; cut it without fades");
  }

  void requireRoom(BandPlan plan) {
    for (BandPiece piece : plan.bands()) {
      double seconds = piece.frames() / (double) plan.sampleRateHz();
      if (inSeconds + outSeconds > seconds) {
        throw new RequestRefusedException(
            String.format(
                Locale.ROOT,
                "band %d lasts %.1f s, less than the fades of %.1f s; ask for shorter ones",
                piece.number(),
                seconds,
                inSeconds + outSeconds));
      }
    }
  }

  Map<String, Object> asMap() {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("inSeconds", inSeconds);
    map.put("outSeconds", outSeconds);
    map.put("grooveFirstFrame", grooveFrom);
    map.put("grooveEndFrame", grooveTo);
    map.put("seed", seed);
    map.put(
        "law", "g x + sqrt(1 - g^2) n; g = sin^2(pi t / 2 T); n noise of the groove's spectrum");
    return map;
  }

  Running over(SideReader side, BandPiece piece) throws IOException {
    return new Running(side, piece);
  }

  /** The fades of one piece, applied to its words in order. */
  final class Running {
    private final SideReader side;
    private final GrooveSynth noise;
    private final Quantiser quantiser;
    private final long start;
    private final long end;
    private final long inFrames;
    private final long outFrames;
    private double[][] x = new double[0][];
    private double[][] n = new double[0][];

    Running(SideReader side, BandPiece piece) throws IOException {
      this.side = side;
      // another noise for every piece
      long own = seed + 1_000_003L * piece.number();
      this.noise =
          new GrooveSynth(new SideChain(List.of()).reader(side), grooveFrom, grooveTo, own);
      this.quantiser = new Quantiser(side.format(), own);
      this.start = piece.firstFrame();
      this.end = piece.endFrame();
      this.inFrames = side.format().frames(inSeconds);
      this.outFrames = side.format().frames(outSeconds);
    }

    /** Words of the frames from {@code at} on, changed in place where a fade is. */
    void apply(long at, int count, long[][] words) {
      if (at >= start + inFrames && at + count <= end - outFrames) {
        return;
      }
      int channels = words.length;
      if (x.length == 0) {
        x = new double[channels][words[0].length];
        n = new double[channels][words[0].length];
      }
      noise.fill(n, 0, count);
      for (int c = 0; c < channels; c++) {
        Words.toDoubles(words[c], 0, x[c], 0, count, side.format());
        for (int i = 0; i < count; i++) {
          double g = gain(at + i);
          if (g < 1) {
            x[c][i] = g * x[c][i] + Math.sqrt(1 - g * g) * n[c][i];
          }
        }
        quantiser.quantise(c, at, x[c], count, words[c]);
      }
    }

    private double gain(long frame) {
      double share = 1;
      if (frame < start + inFrames) {
        share = (frame - start + 0.5) / inFrames;
      }
      if (frame >= end - outFrames) {
        share = Math.min(share, (end - frame - 0.5) / outFrames);
      }
      double s = StrictMath.sin(0.5 * Math.PI * share);
      return share >= 1 ? 1 : s * s;
    }
  }
}
