package org.groovemend.click;

import java.io.IOException;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.ContractSide;
import org.groovemend.stage.Crew;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageContract;
import org.junit.jupiter.api.Tag;

@Tag("long")
class CrackleStageContractTest extends StageContract {

  @Override
  protected Stage stage(ContractSide side, long bareFrames) throws IOException {
    return make(CrackleParameters.defaults(), side);
  }

  @Override
  protected Stage neutral(ContractSide side, long bareFrames) throws IOException {
    return make(CrackleParameters.neutral(), side);
  }

  private static Stage make(CrackleParameters p, ContractSide side) throws IOException {
    return new CrackleStage(
        p, CrackleStage.analyse(side, p, CaptureCurve.FLAT, Crew.alone()), CaptureCurve.FLAT);
  }
}
