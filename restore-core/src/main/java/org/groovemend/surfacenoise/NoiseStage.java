package org.groovemend.surfacenoise;

import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;

/** Lowers groove noise by a stated amount. */
public final class NoiseStage implements SignalStage {

  private final NoiseParameters parameters;
  private final NoiseProfile profile;

  public NoiseStage(NoiseParameters parameters, NoiseProfile profile) {
    this.parameters = parameters;
    this.profile = profile;
  }

  @Override
  public NoiseParameters parameters() {
    return parameters;
  }

  public NoiseProfile profile() {
    return profile;
  }

  @Override
  public Segmentation segmentation(AudioFormat format) {
    RecursionBlocks blocks = RecursionBlocks.of(grid(format), format.sampleRateHz());
    return blocks.segmentation();
  }

  @Override
  public boolean neutral() {
    return parameters.reductionDb() == 0;
  }

  @Override
  public Worker open(AudioFormat format) {
    FrameGrid grid = grid(format);
    if (profile.frameLength() != grid.length()
        || profile.sampleRateHz() != format.sampleRateHz()
        || profile.power().length != format.channels()) {
      throw new IllegalArgumentException(
          "the noise profile is for " + profile.power().length + " channels at " + profile.sampleRateHz() + " Hz and frames of "
              + profile.frameLength() + ", the side has " + format.channels() + " at " + format.sampleRateHz()
              + " Hz and asks for frames of " + grid.length());
    }
    return new NoiseWorker(parameters, profile, RecursionBlocks.of(grid, format.sampleRateHz()));
  }

  private FrameGrid grid(AudioFormat format) {
    return FrameGrid.of(parameters.frameMilliseconds(), format.sampleRateHz());
  }
}
