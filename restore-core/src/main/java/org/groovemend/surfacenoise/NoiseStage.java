package org.groovemend.surfacenoise;

import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;

/** Lowers groove noise by a stated amount. */
public final class NoiseStage implements SignalStage {

  private final NoiseParameters parameters;
  private final SideNoise noise;

  /** With the same noise all along the side. */
  public NoiseStage(NoiseParameters parameters, GrooveNoise grooveNoise) {
    this(parameters, new SideNoise(grooveNoise, null));
  }

  public NoiseStage(NoiseParameters parameters, SideNoise noise) {
    this.parameters = parameters;
    this.noise = noise;
  }

  @Override
  public NoiseParameters parameters() {
    return parameters;
  }

  public SideNoise noise() {
    return noise;
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
    GrooveNoise grooveNoise = noise.leadIn();
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
    return new NoiseWorker(parameters, noise, frames);
  }
}
