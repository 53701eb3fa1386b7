package org.groovemend.thump;

import java.io.IOException;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.ContractSide;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageContract;

class ThumpStageContractTest extends StageContract {

  @Override
  protected Stage stage(ContractSide side, long bareFrames) throws IOException {
    return new ThumpStage(ThumpParameters.defaults());
  }

  @Override
  protected Stage neutral(ContractSide side, long bareFrames) throws IOException {
    return new ThumpStage(ThumpParameters.neutral());
  }

  /** Rings on one wall or both, one of them across each border of the segments. */
  @Override
  protected double[][] wornSamples(AudioFormat format, int frames, int segmentFrames, long seed) {
    double[][] x = super.wornSamples(format, frames, segmentFrames, seed);
    Random random = new Random(seed);
    for (int at = segmentFrames; at < frames; at += segmentFrames) {
      ring(x, format.sampleRateHz(), at - random.nextInt(200), random);
      ring(x, format.sampleRateHz(), at - segmentFrames / 2, random);
    }
    return x;
  }

  private static void ring(double[][] x, int rate, int at, Random random) {
    double size = 0.2 + 0.3 * random.nextDouble();
    double[] gains = {size, -size * random.nextDouble()};
    for (int c = 0; c < x.length; c++) {
      ThumpSound.add(x[c], rate, at, gains[c], 70, 14, 0.12, 0.05);
    }
  }
}
