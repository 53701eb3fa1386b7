package org.groovemend.job.restore;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.chain.RepairSink;
import org.groovemend.chain.SideChain;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.CurveMeter;
import org.groovemend.playback.CurveParameters;
import org.groovemend.playback.CurveStage;
import org.groovemend.playback.CurveTaken;
import org.groovemend.stage.Crew;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageId;

/**
 * How near full scale a transfer comes: its music and its clicks apart, before and behind a curve.
 *
 * @param musicBeforeDbfs highest peak once clicks are repaired
 * @param musicBehindDbfs the same behind the curve
 * @param allBeforeDbfs highest peak as captured, clicks and all
 * @param allBehindDbfs the same behind the curve
 * @param repairs clicks that were repaired for this
 */
public record SideRoom(
    double musicBeforeDbfs,
    double musicBehindDbfs,
    double allBeforeDbfs,
    double allBehindDbfs,
    long repairs) {

  /**
   * Measures; the file is only read, nothing is written.
   *
   * @param captured how the transfer was made
   * @param curve to look behind
   * @throws org.groovemend.audio.InputRejectedException if the file cannot be taken
   * @throws RequestRefusedException if curve and capture contradict one another
   */
  public static SideRoom measure(
      Path file, CaptureCurve captured, CurveParameters curve, Crew crew, Progress progress)
      throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      if (side.frames() == 0) {
        throw new RequestRefusedException(file.getFileName() + " holds no frames to measure");
      }
      Treatment treatment =
          Treatment.defaults()
              .withCaptured(captured)
              .withCurve(curve)
              .withStages(List.of(StageId.CLICKS));
      if (!curve.isNeutral()) {
        CurvePlan.requireSensible(treatment.withStages(List.of(StageId.CURVE)));
      }
      CurvePlan.requireRealisable(curve, side.format());
      LeadInFinding none =
          new LeadInFinding(false, 0, 0, 0, "not looked for", Double.NaN, false, null);
      Plan plan = Plan.make(side, treatment, none, null, crew, progress);
      // a curve that does nothing is watched as well
      CurveTaken all = watched(side, List.of(), curve, null, crew, progress);
      long[] repairs = new long[1];
      CurveTaken music = watched(side, plan.chain().stages(), curve, repairs, crew, progress);
      return new SideRoom(
          music.peakBeforeDbfs(),
          music.peakAfterDbfs(),
          all.peakBeforeDbfs(),
          all.peakAfterDbfs(),
          repairs[0]);
    }
  }

  private static CurveTaken watched(
      WordSource side,
      List<Stage> before,
      CurveParameters curve,
      long[] repairs,
      Crew crew,
      Progress progress)
      throws IOException {
    CurveMeter meter = new CurveMeter();
    List<Stage> stages = new ArrayList<>(before);
    // a hair of gain keeps a neutral curve in the chain
    CurveParameters watched = curve.isNeutral() ? curve.withGainDb(Double.MIN_NORMAL) : curve;
    stages.add(new CurveStage(watched));
    RepairSink sink =
        (stage, repair) -> {
          if (repairs != null) {
            repairs[0]++;
          }
        };
    new SideChain(stages)
        .run(
            side,
            crew,
            1,
            sink,
            Map.of(StageId.CURVE, meter::accept),
            (words, offset, count) -> {},
            progress);
    return meter.finish();
  }
}
