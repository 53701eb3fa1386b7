package org.groovemend.job.undo;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.chain.SignalWatch;
import org.groovemend.job.restore.GrooveChange;
import org.groovemend.job.restore.NotRepeatedException;
import org.groovemend.job.restore.OtherGroove;
import org.groovemend.job.restore.Plan;
import org.groovemend.job.restore.SideRecord;
import org.groovemend.job.restore.SignalWatches;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.side.Survey;
import org.groovemend.job.side.WholeWords;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.Ledger;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;

/**
 * The treatment of a ledger made ready to be run again: settings read back, the original looked at
 * as before, and everything found compared with what the ledger says was found. Nothing is
 * estimated anew from what is left when edits are taken back.
 */
final class Replay implements Repetition {

  private final SideReader side;
  private final Survey survey;
  private final LeadInFinding leadIn;
  private final Plan plan;
  private final SignalWatches watches;

  private Replay(
      SideReader side, Survey survey, LeadInFinding leadIn, Plan plan, SignalWatches watches) {
    this.side = side;
    this.survey = survey;
    this.leadIn = leadIn;
    this.plan = plan;
    this.watches = watches;
  }

  /**
   * {@link Repetition.Maker}.
   *
   * @throws NotRepeatedException if settings, stages or findings are not those of the ledger
   */
  static Repetition of(Ledger ledger, SideReader side, Crew crew, Progress progress)
      throws IOException {
    Treatment treatment = TreatmentOfLedger.read(ledger.header().treatment());
    Survey survey = Survey.of(side, crew, progress);
    LeadInFinding leadIn = leadIn(ledger, survey, side.frames());
    Plan plan =
        Plan.make(
            WholeWords.of(side, survey.levels()),
            treatment,
            leadIn,
            otherGroove(ledger, side),
            crew,
            progress);
    SignalWatches watches = new SignalWatches(plan, treatment, side.format());
    Replay replay = new Replay(side, survey, leadIn, plan, watches);
    replay.requireSameStages(ledger);
    replay.requireSameFindings(ledger);
    return replay;
  }

  private static Map<String, Object> finding(Ledger ledger, String name) {
    for (AnalysisRecord analysis : ledger.analyses()) {
      if (analysis.name().equals(name)) {
        return analysis.result();
      }
    }
    return Map.of();
  }

  /** As a person stated it, or else as it is found. */
  private static LeadInFinding leadIn(Ledger ledger, Survey survey, long frames) {
    Map<String, Object> told = finding(ledger, SideRecord.LEAD_IN);
    return Boolean.TRUE.equals(told.get("stated"))
            && told.get("startFrame") instanceof Long start
            && told.get("endFrame") instanceof Long end
        ? LeadInFinding.stated(start, end, frames)
        : survey.leadIn();
  }

  private static OtherGroove otherGroove(Ledger ledger, SideReader side) {
    Map<String, Object> noise = finding(ledger, StageId.NOISE.key());
    return noise.containsKey("of") ? OtherGroove.ofLedger(noise, side.format()) : null;
  }

  private void requireSameStages(Ledger ledger) {
    List<String> expected = ledger.header().stages().stream().map(AppliedStage::name).toList();
    List<String> found =
        plan.chain().stages().stream().map(stage -> stage.parameters().stage().key()).toList();
    if (!found.equals(expected)) {
      throw new NotRepeatedException("the stages that work", expected, found);
    }
  }

  /** What a later program finds besides is of no account. */
  private void requireSameFindings(Ledger ledger) throws IOException {
    for (Map.Entry<String, Object> found : plan.findings(side.format().sampleRateHz()).entrySet()) {
      Map<String, Object> again = AnalysisRecord.asReadBack(found.getValue());
      for (Map.Entry<String, Object> told : finding(ledger, found.getKey()).entrySet()) {
        if (!again.containsKey(told.getKey())
            || !Objects.equals(again.get(told.getKey()), told.getValue())) {
          throw new NotRepeatedException(
              "finding " + found.getKey() + ", " + told.getKey(),
              shortened(told.getValue()),
              shortened(again.get(told.getKey())));
        }
      }
    }
  }

  private static String shortened(Object value) {
    String text = String.valueOf(value);
    int most = 120;
    return text.length() <= most ? text : text.substring(0, most) + "...";
  }

  @Override
  public WordSource words() {
    return WholeWords.of(side, survey.levels());
  }

  @Override
  public SideChain chain() {
    return plan.chain();
  }

  @Override
  public Map<StageId, SignalWatch> watches() {
    return watches.byStage();
  }

  @Override
  public Map<String, Object> findings(SideReader copy) throws IOException {
    Map<String, Object> findings = SignalWatches.findings(watches.taken());
    GrooveChange groove =
        survey.levels().silent()
            ? null
            : GrooveChange.of(
                plan.transferToCompare(side),
                new SideChain(List.of()).reader(copy),
                leadIn,
                survey.track());
    if (groove != null) {
      findings.put(GrooveChange.FINDING, groove.asMap());
    }
    return findings;
  }
}
