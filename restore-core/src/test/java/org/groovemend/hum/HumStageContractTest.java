package org.groovemend.hum;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.ContractSide;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageContract;
import org.junit.jupiter.api.Tag;

@Tag("long")
class HumStageContractTest extends StageContract {
  /** The sides of the laws last six seconds, too short for the usual certainty. */
  private static final HumParameters P = new HumParameters(1, 1000);

  @Override
  protected Stage stage(ContractSide side, long bareFrames) throws IOException {
    return HumAnalyser.analyse(side, P);
  }

  @Override
  protected Stage neutral(ContractSide side, long bareFrames) throws IOException {
    return HumAnalyser.analyse(side, HumParameters.neutral());
  }

  @Override
  protected double[][] wornSamples(AudioFormat format, int frames, int segmentFrames, long seed) {
    double[][] x = super.wornSamples(format, frames, segmentFrames, seed);
    for (double[] channel : x) {
      for (int k = 1; k <= 3; k++) {
        HumSound.add(channel, format.sampleRateHz(), 50 * k, 0.05 / k, 0, 0, k);
      }
    }
    return x;
  }
}
