package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.click.ClickParameters;
import org.groovemend.click.CrackleParameters;
import org.groovemend.hum.HumParameters;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.CurveParameters;
import org.groovemend.rumble.RumbleParameters;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;
import org.groovemend.surfacenoise.NoiseParameters;
import org.groovemend.thump.ThumpParameters;
import org.groovemend.walls.MonoParameters;

/**
 * All settings of a restoration: what a treatment file holds.
 *
 * @param captured how the transfer was made; if unknown, the side's clicks are asked
 * @param stages the stages to apply, in any order; they run in the order of {@link StageId}
 * @param clicks settings of that stage
 * @param crackle settings of that stage
 * @param thumps settings of that stage
 * @param hum settings of that stage
 * @param rumble settings of that stage
 * @param curve settings of that stage
 * @param mono settings of that stage
 * @param noise settings of that stage
 * @param ditherSeed seed of the dither added where samples are requantised; same seed, same bytes
 */
public record Treatment(
    CaptureCurve captured,
    List<StageId> stages,
    ClickParameters clicks,
    CrackleParameters crackle,
    ThumpParameters thumps,
    HumParameters hum,
    RumbleParameters rumble,
    CurveParameters curve,
    MonoParameters mono,
    NoiseParameters noise,
    long ditherSeed) {

  /** Version of the treatment file. */
  public static final int FILE_VERSION = 1;

  /**
   * Stages applied when nothing is said: the crackle pass is for sides that still crackle, hum and
   * rumble are taken out, a curve is applied and walls are joined where a person asks for it.
   */
  public static final List<StageId> USUAL = List.of(StageId.CLICKS, StageId.THUMPS, StageId.NOISE);

  public Treatment {
    stages = stages.stream().distinct().sorted().toList();
  }

  /** The settings used when nothing is said. */
  public static Treatment defaults() {
    return new Treatment(
        CaptureCurve.UNKNOWN,
        USUAL,
        ClickParameters.defaults(),
        CrackleParameters.defaults(),
        ThumpParameters.defaults(),
        HumParameters.defaults(),
        RumbleParameters.defaults(),
        CurveParameters.defaults(),
        MonoParameters.defaults(),
        NoiseParameters.defaults(),
        1);
  }

  /** Takes less: fewer alarms, a lighter hand on the surface noise. */
  public static Treatment gentle() {
    return new Treatment(
        CaptureCurve.UNKNOWN,
        USUAL,
        ClickParameters.gentle(),
        CrackleParameters.gentle(),
        ThumpParameters.gentle(),
        HumParameters.gentle(),
        RumbleParameters.gentle(),
        CurveParameters.defaults(),
        MonoParameters.gentle(),
        NoiseParameters.gentle(),
        1);
  }

  public Treatment withCaptured(CaptureCurve how) {
    return new Treatment(
        how, stages, clicks, crackle, thumps, hum, rumble, curve, mono, noise, ditherSeed);
  }

  public Treatment withStages(List<StageId> wanted) {
    return new Treatment(
        captured, wanted, clicks, crackle, thumps, hum, rumble, curve, mono, noise, ditherSeed);
  }

  public Treatment withClicks(ClickParameters parameters) {
    return new Treatment(
        captured, stages, parameters, crackle, thumps, hum, rumble, curve, mono, noise, ditherSeed);
  }

  public Treatment withNoise(NoiseParameters parameters) {
    return new Treatment(
        captured,
        stages,
        clicks,
        crackle,
        thumps,
        hum,
        rumble,
        curve,
        mono,
        parameters,
        ditherSeed);
  }

  public Treatment withCurve(CurveParameters parameters) {
    return new Treatment(
        captured,
        stages,
        clicks,
        crackle,
        thumps,
        hum,
        rumble,
        parameters,
        mono,
        noise,
        ditherSeed);
  }

  public Treatment withMono(MonoParameters parameters) {
    return new Treatment(
        captured,
        stages,
        clicks,
        crackle,
        thumps,
        hum,
        rumble,
        curve,
        parameters,
        noise,
        ditherSeed);
  }

  public boolean has(StageId stage) {
    return stages.contains(stage);
  }

  /**
   * How the transfer was made: as stated, or else what the curve stage takes back; in the time of
   * the file.
   */
  CaptureCurve capturedThrough() {
    boolean told = !captured.isKnown() && has(StageId.CURVE) && !curve.undone().curve().isFlat();
    CaptureCurve through = told ? new CaptureCurve(curve.undone(), 1) : captured;
    return through.scaledBy(curve.undoFactor());
  }

  /** The parameter records in the order of their stages. */
  public List<StageParameters> parameters() {
    return List.of(clicks, crackle, thumps, hum, rumble, curve, mono, noise);
  }

  /**
   * Every setting of the stages that are applied, as it goes into the ledger; what does not matter
   * for the result is left out.
   */
  public Map<String, Object> asMap() {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("treatment", FILE_VERSION);
    map.put("captured", captured.key());
    map.put("stages", new ArrayList<>(stages.stream().map(StageId::key).toList()));
    for (StageParameters parameters : parameters()) {
      if (has(parameters.stage())) {
        Map<String, Object> settings = new LinkedHashMap<>();
        settings.put("version", parameters.version());
        settings.put("settings", parameters);
        map.put(parameters.stage().key(), settings);
      }
    }
    map.put("ditherSeed", ditherSeed);
    return map;
  }
}
