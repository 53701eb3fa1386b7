package org.groovemend.walls;

import java.io.IOException;
import java.util.Random;
import java.util.stream.Stream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.ContractSide;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageContract;
import org.junit.jupiter.api.Tag;

@Tag("long")
class MonoStageContractTest extends StageContract {

  /** Hides those of the contract: a file of one channel is refused before there is a stage. */
  static Stream<AudioFormat> formats() {
    return Stream.of(AudioFormat.ieeeFloat(44_100, 2, 64), AudioFormat.ieeeFloat(96_000, 2, 64));
  }

  @Override
  protected Stage stage(ContractSide side, long bareFrames) throws IOException {
    return MonoStage.of(
        MonoParameters.defaults().with(MonoParameters.When.ALWAYS), WallAnalyser.analyse(side));
  }

  @Override
  protected Stage neutral(ContractSide side, long bareFrames) throws IOException {
    return MonoStage.of(
        MonoParameters.defaults()
            .with(MonoParameters.When.ALWAYS)
            .with(MonoParameters.Result.MEASURED),
        WallAnalyser.analyse(side));
  }

  /** The right wall a little weaker and later, with noise that comes and goes. */
  @Override
  protected double[][] wornSamples(AudioFormat format, int frames, int segmentFrames, long seed) {
    double[][] x = super.wornSamples(format, frames, segmentFrames, seed);
    Random random = new Random(seed);
    for (int i = frames - 1; i >= 0; i--) {
      double swell = 2e-3 * (1 + Math.sin(2e-5 * i));
      double later = 0.7 * x[0][i] + (i == 0 ? 0 : 0.3 * x[0][i - 1]);
      x[1][i] = 0.9 * later + swell * random.nextGaussian();
    }
    return x;
  }

  @Override
  protected boolean deadStaysDead() {
    return false;
  }
}
