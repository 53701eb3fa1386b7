package org.groovemend.job.restore;

import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.chain.SignalWatch;
import org.groovemend.playback.CurveMeter;
import org.groovemend.rumble.RumbleMeter;
import org.groovemend.stage.StageId;

/** Meters of what the stages that may change any sample do, while the chain runs. */
public final class SignalWatches {

  private final Plan plan;
  private final RumbleMeter rumble;
  private final CurveMeter curve;
  private final WallWeights weights;

  public SignalWatches(Plan plan, Treatment treatment, AudioFormat format) {
    this.plan = plan;
    rumble = plan.rumble() == null ? null : new RumbleMeter(format, treatment.rumble());
    curve = plan.curve() == null ? null : new CurveMeter();
    boolean mono =
        plan.chain().stages().stream().anyMatch(s -> s.parameters().stage() == StageId.MONO);
    weights = mono ? new WallWeights() : null;
  }

  /** For the chain. */
  public Map<StageId, SignalWatch> byStage() {
    Map<StageId, SignalWatch> watches = new EnumMap<>(StageId.class);
    if (rumble != null) {
      watches.put(StageId.RUMBLE, rumble::accept);
    }
    if (curve != null) {
      watches.put(StageId.CURVE, curve::accept);
    }
    if (weights != null) {
      watches.put(StageId.MONO, weights);
    }
    return watches;
  }

  /** What was measured; to be asked once, after the chain has run. */
  public SignalTaken taken() {
    return new SignalTaken(
        rumble == null || !plan.rumble().taken() ? null : rumble.finish(),
        curve == null ? null : curve.finish(),
        weights);
  }

  /** What of that goes into the ledger, by name. */
  public static Map<String, Object> findings(SignalTaken taken) {
    Map<String, Object> findings = new LinkedHashMap<>();
    if (taken.rumble() != null) {
      findings.put("rumbleTaken", taken.rumble());
    }
    if (taken.curve() != null) {
      findings.put("curveTaken", taken.curve());
    }
    if (taken.walls() != null && taken.walls().told()) {
      findings.put(WallWeights.FINDING, taken.walls().finding());
    }
    return findings;
  }
}
