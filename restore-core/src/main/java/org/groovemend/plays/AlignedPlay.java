package org.groovemend.plays;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.resample.Resampled;
import org.groovemend.stage.RangeReader;

/**
 * Another play as it would have come at the moments of the reference, its channels brought to the
 * reference's level and sense. Silent where it does not reach. Not for several threads at once.
 */
public final class AlignedPlay implements RangeReader {
  private final Resampled heard;
  private final long frames;
  private final double[] gain;

  AlignedPlay(
      RangeReader play, Alignment alignment, int referenceHz, long referenceFrames, double[] gain) {
    double playHz = play.format().sampleRateHz();
    long pad = (long) (Math.ceil(Math.max(0, -alignment.offsetSeconds())) * playHz + playHz);
    PlayMap map = alignment.map(referenceHz, playHz, pad);
    double end = map.playSeconds(referenceFrames / (double) referenceHz) * playHz + pad;
    long all = Math.max(pad + play.frames(), (long) end) + (long) playHz;
    heard = new Resampled(new PaddedSide(play, pad, all), map, referenceHz);
    frames = referenceFrames;
    this.gain = gain.clone();
  }

  @Override
  public AudioFormat format() {
    return heard.format();
  }

  @Override
  public long frames() {
    return frames;
  }

  @Override
  public void read(long firstFrame, int count, double[][] into) throws IOException {
    heard.read(firstFrame, count, into);
    for (int c = 0; c < into.length; c++) {
      double g = gain[c];
      for (int i = 0; i < count; i++) {
        into[c][i] *= g;
      }
    }
  }
}
