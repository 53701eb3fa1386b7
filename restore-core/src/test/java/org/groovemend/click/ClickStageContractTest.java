package org.groovemend.click;

import java.io.IOException;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.ContractSide;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageContract;
import org.junit.jupiter.api.Tag;

@Tag("long")
class ClickStageContractTest extends StageContract {

  @Override
  protected Stage stage(ContractSide side, long bareFrames) throws IOException {
    return make(ClickParameters.defaults(), side);
  }

  @Override
  protected Stage neutral(ContractSide side, long bareFrames) throws IOException {
    return make(ClickParameters.neutral(), side);
  }

  private static Stage make(ClickParameters p, ContractSide side) throws IOException {
    return new ClickStage(p, ClickAnalyser.analyse(side, p, CaptureCurve.FLAT), CaptureCurve.FLAT);
  }
}
