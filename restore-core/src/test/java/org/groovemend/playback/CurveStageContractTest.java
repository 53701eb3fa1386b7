package org.groovemend.playback;

import org.groovemend.stage.ContractSide;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageContract;
import org.junit.jupiter.api.Tag;

/**
 * One curve undone, one applied, alike but for the lowest bass: a single curve turns the phase of
 * everything, as it should, and would not pass the law of alignment.
 */
@Tag("long")
class CurveStageContractTest extends StageContract {

  @Override
  protected Stage stage(ContractSide side, long bareFrames) {
    return new CurveStage(CurveParameters.defaults().withUndo("riaa").withApply("iec-amended"));
  }

  @Override
  protected Stage neutral(ContractSide side, long bareFrames) {
    return new CurveStage(CurveParameters.defaults());
  }
}
