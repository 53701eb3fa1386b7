package org.groovemend.rumble;

import java.io.IOException;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.ContractSide;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageContract;

class RumbleStageContractTest extends StageContract {

  @Override
  protected Stage stage(ContractSide side, long bareFrames) throws IOException {
    return RumbleAnalyser.analyse(side, RumbleParameters.defaults(), 0, bareFrames);
  }

  @Override
  protected Stage neutral(ContractSide side, long bareFrames) throws IOException {
    return RumbleAnalyser.analyse(side, RumbleParameters.neutral(), 0, bareFrames);
  }

  /** An offset, a warp and rumble of opposite sign on the two walls. */
  @Override
  protected double[][] wornSamples(AudioFormat format, int frames, int segmentFrames, long seed) {
    double[][] x = super.wornSamples(format, frames, segmentFrames, seed);
    Random random = new Random(seed);
    double rumble = 0;
    double turn = 2 * Math.PI / format.sampleRateHz();
    for (int i = 0; i < frames; i++) {
      rumble += 30 * turn * (random.nextGaussian() - rumble);
      for (int c = 0; c < x.length; c++) {
        x[c][i] += 0.01 + 0.05 * Math.sin(0.55 * turn * i) + (1 - 2 * c) * 0.2 * rumble;
      }
    }
    return x;
  }
}
