package org.groovemend.surfacenoise;

import java.io.IOException;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.stage.ContractSide;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageContract;
import org.junit.jupiter.api.Tag;

@Tag("long")
class NoiseStageContractTest extends StageContract {

  /** Short frames, hence short segments: the laws need several of them. */
  private static final NoiseParameters P =
      new NoiseParameters(8, 6, 23, 0.98, 0.97, -25, 3, 1.0 / 12);

  @Override
  protected Stage stage(ContractSide side, long bareFrames) throws IOException {
    return make(P, side, bareFrames);
  }

  @Override
  protected Stage neutral(ContractSide side, long bareFrames) throws IOException {
    return make(P.withReductionDb(0), side, bareFrames);
  }

  private static Stage make(NoiseParameters p, ContractSide side, long bareFrames)
      throws IOException {
    LeadInFinding bare = LeadInFinding.stated(0, bareFrames, side.frames());
    GrooveNoise start = NoiseAnalyser.analyse(side, bare, p);
    // the laws must hold while the noise changes along the side and as the disc turns
    TurnSwing swing =
        new TurnSwing(0.3, 1, 0, 0.2, 0.1, new double[][] {{0.5, 0, 0, 0.1}, {0, 1, 0.1, 0}});
    return new NoiseStage(
        p,
        new SideNoise(
            start, SideNoiseTest.tilted(start, side.frames() - 10, side.frames()), swing));
  }
}
