package org.groovemend.surfacenoise;

import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;

/** Lowers groove noise by a stated amount. */
public final class NoiseStage implements SignalStage {

  private final NoiseParameters parameters;
  private final GrooveNoise grooveNoise;

  public NoiseStage(NoiseParameters parameters, GrooveNoise grooveNoise) {
    this.parameters = parameters;
    this.grooveNoise = grooveNoise;
  }

  @Override
  public NoiseParameters parameters() {
    return parameters;
  }

  public GrooveNoise grooveNoise() {
    return grooveNoise;
  }

  @Override
  public Segmentation segmentation(AudioFormat format) {
    return NoiseFrames.of(parameters, format.sampleRateHz()).segmentation();
  }

  @Override
  public boolean neutral() {
    return parameters.reductionDb() == 0;
  }

  @Override
  public Worker open(AudioFormat format) {
    NoiseFrames frames = NoiseFrames.of(parameters, format.sampleRateHz());
    FrameGrid grid = frames.longBlocks().grid();
    if (grooveNoise.frameLength() != grid.length()
        || grooveNoise.sampleRateHz() != format.sampleRateHz()
        || grooveNoise.power().length != format.channels()) {
      throw new IllegalArgumentException(
          "the noise spectrum is for "
              + grooveNoise.power().length
              + " channels at "
              + grooveNoise.sampleRateHz()
              + " Hz and frames of "
              + grooveNoise.frameLength()
              + ", the side has "
              + format.channels()
              + " at "
              + format.sampleRateHz()
              + " Hz and asks for frames of "
              + grid.length());
    }
    return new NoiseWorker(parameters, grooveNoise, frames);
  }
}
