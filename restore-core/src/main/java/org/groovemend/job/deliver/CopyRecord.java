package org.groovemend.job.deliver;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.CopyLevel;
import org.groovemend.deliverable.CopyWish;
import org.groovemend.deliverable.FileTags;
import org.groovemend.deliverable.GainPlan;
import org.groovemend.job.restore.CurvePlan;
import org.groovemend.job.speed.SpeedRecord;
import org.groovemend.ledger.Sha256;

/** The record beside a copy: what it is, of what, through what. */
final class CopyRecord {

  /** Name of the field that holds the version of its form. */
  static final String FORM = "copy";

  private static final int VERSION = 1;

  private CopyRecord() {}

  static void write(
      DeliverRequest request,
      Path folder,
      DeliverySide side,
      CopyWish wish,
      DeliverOutcome.Copy copy,
      CopyBand band,
      GainPlan gain,
      List<String> leftOut)
      throws IOException {
    boolean restored = wish.kind() == CopyKind.SERVICE;
    Map<String, Object> all = new LinkedHashMap<>();
    all.put(FORM, VERSION);
    all.put("tool", "groovemend " + request.toolVersion());
    all.put("made", request.now().toString());
    all.put("kind", wish.kind().key());
    all.put("what", wish.kind().words());
    all.put("file", DeliveryRecord.asMap(copy.file()));
    all.put("original", DeliveryRecord.asMap(side.original()));
    if (band != null) {
      all.put("band", band);
    }
    all.put("ledger", restored ? ledger(side) : null);
    all.put("cleanCopy", restored ? DeliveryRecord.asMap(side.clean()) : null);
    all.put(
        "steps",
        wish.kind() == CopyKind.PRESERVATION ? null : steps(request, side, wish, copy, gain));
    all.put("loudness", loudness(copy.level()));
    all.put("tags", wish.kind() == CopyKind.PRESERVATION ? null : tags(side.asked().tags()));
    all.put("chunksLeftOut", leftOut);
    SealedRecord.write(folder.resolve(DeliverPlan.sidecar(copy.file().name())), all);
  }

  private static Map<String, Object> ledger(DeliverySide side) {
    Map<String, Object> ledger = DeliveryRecord.asMap(side.ledger());
    ledger.put("ledgerSeal", side.ledgerSeal());
    ledger.put("stages", side.stages());
    return ledger;
  }

  private static Map<String, Object> steps(
      DeliverRequest request,
      DeliverySide side,
      CopyWish wish,
      DeliverOutcome.Copy copy,
      GainPlan gain) {
    AudioFormat format = copy.file().format();
    boolean restored = wish.kind() == CopyKind.SERVICE;
    Map<String, Object> steps = new LinkedHashMap<>();
    steps.put("source", restored ? side.clean().name() : side.original().name());
    steps.put(
        "curve",
        restored || side.curve() == null
            ? null
            : CurvePlan.finding(side.curve(), side.original().format().sampleRateHz()));
    steps.put(
        "oneOfTwoLikeChannels",
        restored && side.joined() && side.original().format().channels() == 2);
    Map<String, Object> speed = SpeedRecord.asMap(side.asked().speed());
    speed.put("basis", side.asked().speedBasis());
    steps.put("speed", speed);
    steps.put("sampleRateHz", format.sampleRateHz());
    Map<String, Object> level = new LinkedHashMap<>();
    level.put("gainDb", gain.gainDb());
    level.put("wantedGainDb", gain.wantedDb());
    level.put("words", gain.words());
    if (wish.loudness() != null) {
      level.put("targetLufs", wish.loudness().targetLufs());
      level.put("peakLimitDbtp", wish.loudness().peakDbtp());
      level.put("per", wish.loudness().perSet() ? "set" : "side");
    }
    steps.put("level", level);
    Map<String, Object> dither = new LinkedHashMap<>();
    dither.put("kind", format.coding() == SampleCoding.PCM ? "triangular" : "none");
    dither.put("seed", request.recipe().ditherSeed());
    steps.put("dither", dither);
    return steps;
  }

  private static Map<String, Object> tags(FileTags tags) {
    Map<String, Object> map = new LinkedHashMap<>();
    tags.tags().values().forEach((field, text) -> map.put(field.key(), text));
    if (tags.cover() != null) {
      map.put("coverSha256", Sha256.of(tags.cover().bytes()));
    }
    return map;
  }

  private static Map<String, Object> loudness(CopyLevel level) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("method", "ITU-R BS.1770, EBU R 128");
    map.put("integratedLufs", level.loudness().integratedLufs());
    map.put("rangeLu", level.loudness().rangeLu());
    map.put("mostMomentaryLufs", level.loudness().mostMomentaryLufs());
    map.put("mostShortTermLufs", level.loudness().mostShortTermLufs());
    map.put("truePeakDbtp", level.truePeakDbtp());
    return map;
  }
}
