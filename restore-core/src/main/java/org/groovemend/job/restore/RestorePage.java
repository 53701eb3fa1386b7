package org.groovemend.job.restore;

import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.chain.Progress;
import org.groovemend.job.side.LedgerLines;
import org.groovemend.job.side.Survey;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.report.Command;
import org.groovemend.report.Comparison;
import org.groovemend.report.DoubtfulEdits;
import org.groovemend.report.EditDensity;
import org.groovemend.report.Fact;
import org.groovemend.report.Figure;
import org.groovemend.report.FileEntry;
import org.groovemend.report.Listening;
import org.groovemend.report.Pictures;
import org.groovemend.report.ReportInput;
import org.groovemend.report.ReportPage;
import org.groovemend.stage.Crew;

/** Puts the page of a restored side into words. */
public final class RestorePage {

  private static final double MUCH_EDITED = 0.05;

  private final RestoreRequest request;
  private final PreparedSide prepared;
  private final Survey survey;
  private final Plan plan;
  private final SideAccount account;
  private final Bookkeeping.Sums sums;
  private final SignalTaken taken;
  private final StageAccounts stages;
  private final RestoreOutcome outcome;
  private final AudioFormat format;

  RestorePage(
      RestoreRequest request,
      PreparedSide prepared,
      SideAccount account,
      Bookkeeping.Sums sums,
      RepairAmounts amounts,
      SignalTaken taken,
      RestoreOutcome outcome) {
    this.request = request;
    this.prepared = prepared;
    this.survey = prepared.survey();
    this.plan = prepared.plan();
    this.account = account;
    this.sums = sums;
    this.taken = taken;
    this.outcome = outcome;
    this.stages = new StageAccounts(request, prepared, sums, amounts, taken, outcome);
    this.format = survey.facts().format();
  }

  void write(
      Path file,
      WordSource restored,
      Comparison comparison,
      Listening listening,
      Crew crew,
      Progress progress)
      throws IOException {
    LedgerNames names = prepared.names();
    EditDensity density = account.density();
    ReportInput input =
        new ReportInput(
            new ReportInput.Heading(
                survey.facts().name(),
                "groovemend " + request.toolVersion(),
                DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm 'UTC'", Locale.ROOT)
                    .format(request.now().atOffset(ZoneOffset.UTC)),
                summary()),
            files(names),
            facts(),
            SideFindings.ofSound(survey, prepared.leadIn(), plan, account.rotation()),
            stages.all(),
            silent() ? List.of() : pictures(prepared.side(), restored, crew, progress),
            comparison,
            new ReportInput.EditAccount(
                sums.edits(),
                format.sampleRateHz(),
                format.channels(),
                editPictures(density),
                account.doubtful(),
                DoubtfulEdits.RULE + filledBy()),
            cautions(density),
            commands(names),
            listening);
    try (Writer out = Files.newBufferedWriter(file)) {
      ReportPage.write(input, out);
    }
  }

  private List<Fact> facts() {
    List<Fact> facts =
        new ArrayList<>(
            SideFindings.ofFile(
                survey.facts(),
                prepared.side().parts(),
                request.treatment().capturedThrough(),
                plan.capture()));
    facts.add(LedgerLines.fingerprint(outcome.seal()));
    return facts;
  }

  private List<Figure> pictures(
      WordSource original, WordSource restored, Crew crew, Progress progress) throws IOException {
    SidePictures pictures =
        SidePictures.of(original, survey.envelope(), restored, account.envelope(), crew, progress);
    return pictures.figures();
  }

  private List<Figure> editPictures(EditDensity density) {
    List<Figure> pictures = new ArrayList<>();
    if (sums.edits() > 0) {
      pictures.add(editsOverTime(density));
      account.disc(survey.facts().name(), prepared.leadIn()).ifPresent(pictures::add);
    }
    if (plan.clicks() != null) {
      pictures.addAll(ClickRecallPage.figures(plan.clicks().recall()));
    }
    return pictures;
  }

  public static Figure editsOverTime(EditDensity density) {
    return new Figure(
        "Edits over time",
        "Number of edits and share of changed samples over the whole side.",
        "A density that follows the beat of the music is a warning: listen there.",
        Pictures.edits(density));
  }

  private String filledBy() {
    String tails =
        throughCurve()
            ? " Lengths take in the tail that the playback curve gave each click; the ledger also has the gap alone."
                + " The expected error is that of the fill in the gap, with the curve undone."
            : "";
    return tails
        + " lsar: least-squares interpolation with an autoregressive model. thump: a low ring taken out and its front filled so;"
        + " statistic and threshold in decibans.";
  }

  private boolean throughCurve() {
    return plan.captured().isCurved();
  }

  private boolean silent() {
    return survey.levels().silent();
  }

  private String summary() {
    if (silent()) {
      return Restore.SILENT;
    }
    if (outcome.changedSamples() == 0) {
      return "No sample was changed.";
    }
    StringBuilder text = new StringBuilder();
    if (plan.repairs()) {
      text.append(sums.edits() == 0 ? "No" : Long.toString(sums.edits()))
          .append(sums.edits() <= 1 ? " place was repaired" : " places were repaired");
    }
    if (plan.hum() != null && plan.hum().found()) {
      text.append(text.isEmpty() ? "Hum was" : "; hum was").append(" taken out");
    }
    if (taken.rumble() != null) {
      text.append(text.isEmpty() ? "Rumble was" : "; rumble was").append(" taken out");
    }
    if (plan.curve() != null) {
      text.append(text.isEmpty() ? "A playback curve was" : "; a playback curve was")
          .append(CurvePlan.doneInWords(plan.curve().parameters()));
    }
    String walls = WallsPage.summary(prepared.chain());
    if (!walls.isEmpty()) {
      text.append(text.isEmpty() ? "The walls were" : "; the walls were").append(walls);
    }
    if (plan.noise() != null) {
      text.append(text.isEmpty() ? "The surface noise was" : "; the surface noise was")
          .append(" lowered by up to ")
          .append(plain(request.treatment().noise().reductionDb()))
          .append(" dB over the whole side");
    }
    return text.append(". The original comes back byte for byte from the files named here.")
        .toString();
  }

  private List<FileEntry> files(LedgerNames names) {
    List<FileEntry> files = new ArrayList<>();
    files.add(entry("original", outcome.original()));
    files.add(entry("restored", outcome.restored()));
    if (outcome.removed() != null) {
      files.add(entry("removed", outcome.removed()));
    }
    files.add(new FileEntry("ledger", names.ledger(), -1, ""));
    return files;
  }

  private static FileEntry entry(String role, FileFacts facts) {
    return new FileEntry(role, facts.name(), facts.bytes(), facts.sha256());
  }

  private List<String> cautions(EditDensity density) {
    List<String> cautions = new ArrayList<>(outcome.remarks());
    if (density.largestChangedShare() > MUCH_EDITED) {
      cautions.add(
          String.format(
              Locale.ROOT,
              "At the densest place %.0f %% of a channel lies in edits%s; more than 5 %% in a stretch should be listened to"
                  + " (common practice, no source).",
              100 * density.largestChangedShare(),
              throughCurve()
                  ? ", counting the tails that the playback curve gave the clicks"
                  : ""));
    }
    return cautions;
  }

  private List<Command> commands(LedgerNames names) {
    List<Command> commands = new ArrayList<>();
    commands.add(
        new Command(
            "Prove that everything still holds", "groovemend verify " + quoted(names.ledger())));
    commands.add(
        new Command("List every edit", "groovemend edits " + quoted(names.ledger()) + " --csv"));
    if (account.rotation().found()) {
      commands.add(
          new Command(
              "Draw the side as the disc lies", "groovemend disc " + quoted(names.ledger())));
    }
    commands.add(
        new Command(
            "Get the original file back, byte for byte",
            "groovemend revert " + quoted(names.ledger()) + " --out FILE"));
    return commands;
  }

  public static String quoted(String name) {
    return name.matches("[A-Za-z0-9._-]+") ? name : "'" + name.replace("'", "'\\''") + "'";
  }

  private static String plain(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
  }
}
