package org.groovemend.job.restore;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.chain.RepairSink;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.delivery.OutputIsInputException;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.side.BroadcastCopy;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.Survey;
import org.groovemend.job.side.WholeWords;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.measure.ChannelLevels;
import org.groovemend.measure.Decibels;
import org.groovemend.stage.Crew;
import org.groovemend.stage.LeftAlone;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;

/**
 * Restores one side: reads a transfer, writes a clean copy, its ledger, what was removed and a
 * report; all of them or none.
 */
public final class Restore {

  static final String SILENT =
      "The side is digital silence: every sample is zero. There was nothing to treat and nothing was changed.";

  static final String ONLY_GROOVE =
      "Nothing stands above what was taken for bare groove: the whole side is as loud as that. If there is sound to keep, use"
          + " --stages clicks,thumps.";

  /** Behind the number of samples. */
  public static final String LIMITED =
      " samples of the copy would have exceeded full scale and were limited to it.";

  /** A side this little louder than its bare groove has nothing else to hear, dB. */
  private static final double AS_LOUD_DB = 1;

  private final RestoreRequest request;
  private final Crew crew;
  private final Progress progress;
  private final ReportWish report;
  private final List<String> remarks = new ArrayList<>();
  private final RepairAmounts amounts = new RepairAmounts();
  private final LeftPlaces left = new LeftPlaces();

  private Restore(RestoreRequest request, Crew crew, Progress progress, ReportWish report) {
    this.request = request;
    this.crew = crew;
    this.progress = progress;
    this.report = report;
  }

  /**
   * Does the whole job.
   *
   * @throws org.groovemend.audio.InputRejectedException if the transfer cannot be taken; nothing is
   *     written then
   * @throws RequestRefusedException if what was asked for does not fit the side; nothing is written
   *     then
   * @throws org.groovemend.delivery.OutputExistsException if a result is there already and may not
   *     be replaced
   * @throws IOException if reading or writing fails; nothing is left behind then
   */
  public static RestoreOutcome run(RestoreRequest request, Crew crew, Progress progress)
      throws IOException {
    return run(request, crew, progress, ReportWish.WITH_CLIPS);
  }

  /** The same, with the page that is wished for. */
  public static RestoreOutcome run(
      RestoreRequest request, Crew crew, Progress progress, ReportWish report) throws IOException {
    return new Restore(request, crew, progress, report).run(true).outcome();
  }

  /**
   * The same but for the last step: results are complete and stored, but not in place yet. Where
   * the same side may be done twice at once, on several machines, each leaves its own results, and
   * one process alone puts those of one in place.
   */
  public static LeftResults leave(
      RestoreRequest request, Crew crew, Progress progress, ReportWish report) throws IOException {
    return new Restore(request, crew, progress, report).run(false);
  }

  private LeftResults run(boolean inPlace) throws IOException {
    try (SideReader side = SideFiles.open(request.side())) {
      AudioFormat format = side.format();
      LedgerNames names = request.names(format.containerBits());
      requireFree(names);
      CurvePlan.requireSensible(request.treatment());
      remarks.addAll(side.notices());
      Survey survey = Survey.of(side, crew, progress);
      LeadInFinding leadIn = StatedLeadIn.orFound(request.leadIn(), survey, format, side.frames());
      boolean silent = survey.levels().silent();
      Treatment treatment =
          silent ? request.treatment().withStages(List.of()) : request.treatment();
      if (WholeWords.contradicted(format, survey.levels())) {
        remarks.add(WholeWords.remark(format, survey.levels()));
      }
      OtherGroove other =
          request.grooveOf() == null || !treatment.has(StageId.NOISE)
              ? null
              : OtherGroove.of(request.grooveOf(), format, treatment, crew, progress);
      Plan plan =
          Plan.make(WholeWords.of(side, survey.levels()), treatment, leadIn, other, crew, progress);
      if (other != null && plan.skipped().containsKey(StageId.MONO)) {
        throw new RequestRefusedException(
            "the groove of another side has its walls joined, this side's stay apart: leave out mono, or --groove-of. "
                + plan.skipped().get(StageId.MONO));
      }
      remarks.addAll(plan.remarks());
      if (silent) {
        remarks.add(SILENT);
      } else if (plan.noise() != null
          && other == null
          && !leadIn.stated()
          && onlyGroove(survey, leadIn)) {
        remarks.add(ONLY_GROOVE);
      }
      remarkOnStaleRemoved(names, plan);
      List<String> files = new ArrayList<>(List.of(names.restored(), names.ledger()));
      if (report != ReportWish.NONE) {
        files.add(0, names.report());
      }
      if (plan.chain().wholeSignal()) {
        files.add(0, names.removed());
      }
      LeftResults results;
      try (OutputSet outputs =
          OutputSet.open(request.outFolder(), files, request.replace(), request.inputs())) {
        PreparedSide prepared = new PreparedSide(side, names, outputs, survey, leadIn, plan);
        RestoreOutcome outcome = treat(prepared);
        String hidden = null;
        if (inPlace) {
          outputs.commit();
        } else {
          hidden = outputs.leave();
        }
        results = new LeftResults(outcome, request.outFolder(), hidden, files);
      }
      return results;
    }
  }

  /** Says so before the work is done, not after. */
  private void requireFree(LedgerNames names) throws IOException {
    for (String name : List.of(names.restored(), names.ledger(), names.removed(), names.report())) {
      Path file = request.outFolder().resolve(name);
      if (Files.exists(file) && Files.isSameFile(file, request.side())) {
        throw new OutputIsInputException(file, request.side());
      }
      if (!request.replace() && Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
        throw new OutputExistsException(file);
      }
    }
  }

  /**
   * A removed file of an earlier run belongs to a ledger that this run replaces; it is named, never
   * deleted.
   */
  private void remarkOnStaleRemoved(LedgerNames names, Plan plan) {
    Path stale = request.outFolder().resolve(names.removed());
    if (!plan.chain().wholeSignal() && Files.exists(stale, LinkOption.NOFOLLOW_LINKS)) {
      remarks.add(
          stale.getFileName() + " is left from an earlier run and does not belong to this ledger.");
    }
  }

  private RestoreOutcome treat(PreparedSide prepared) throws IOException {
    SideReader side = prepared.side();
    LedgerNames names = prepared.names();
    Path restoredFile = prepared.outputs().temporary(names.restored());
    SignalWatches watches = new SignalWatches(prepared.plan(), request.treatment(), side.format());
    try (RepairLog repairs = new RepairLog(restoredFile.getParent())) {
      long clipped;
      try (WavWriter writer =
          WavWriter.create(
              restoredFile,
              side.format(),
              side.frames(),
              BroadcastCopy.chunks(
                  side,
                  prepared.stageKeys(),
                  prepared.chain().joinsChannels(),
                  names,
                  request.toolVersion(),
                  request.now()),
              side)) {
        clipped =
            prepared
                .plan()
                .chain()
                .run(
                    WholeWords.of(side, prepared.survey().levels()),
                    crew,
                    request.treatment().ditherSeed(),
                    sink(repairs),
                    watches.byStage(),
                    writer::write,
                    progress);
      }
      repairs.finishWriting();
      if (clipped > 0) {
        remarks.add(clipped + LIMITED);
      }
      if (!left.isEmpty()) {
        remarks.add(
            left.sentence(side.format(), request.treatment().clicks().longestRepairMilliseconds()));
      }
      SignalTaken taken = watches.taken();
      if (taken.curve() != null) {
        CurvePlan.requireRoom(request, taken.curve(), side.format()).ifPresent(remarks::add);
      }
      return new SideRecord(request, prepared, amounts, taken, left, remarks, report)
          .write(repairs, clipped, crew, progress);
    }
  }

  private static boolean onlyGroove(Survey survey, LeadInFinding leadIn) {
    double power = 0;
    for (ChannelLevels channel : survey.levels().channels()) {
      power += StrictMath.pow(10, channel.rmsDbfs() / 10) / survey.levels().channels().size();
    }
    return Decibels.ofPower(power) < leadIn.levelDbfs() + AS_LOUD_DB;
  }

  private RepairSink sink(RepairLog repairs) {
    return new RepairSink() {
      @Override
      public void accept(StageId stage, Repair repair) throws IOException {
        repairs.add(stage, repair);
        amounts.add(stage, repair);
      }

      @Override
      public void leftAlone(StageId stage, LeftAlone place) {
        left.add(stage, place);
      }
    };
  }
}
