package org.groovemend.job.account;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.groovemend.audio.AudioFormat;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.ledger.LedgerTotals;
import org.groovemend.signing.Fingerprint;
import org.groovemend.stage.StageId;

/** What a ledger says, for people who are no engineers. */
final class AccountWords {

  /** Sounds half as loud: 10 dB less. Rule of thumb (Stevens 1955), good for such a page. */
  private static final double HALF_AS_LOUD_DB = 10;

  /** Where edits are so many times longer than what was unknown in them, both are told. */
  private static final int TRACES = 2;

  private final Ledger ledger;
  private final AccountSurvey survey;
  private final AudioFormat format;
  private final long frames;

  AccountWords(Ledger ledger, AccountSurvey survey) {
    this.ledger = ledger;
    this.survey = survey;
    this.format = ledger.header().original().format();
    this.frames = ledger.header().original().frames();
  }

  private double seconds(long count) {
    return count / (double) format.sampleRateHz();
  }

  String about() {
    FileFacts original = ledger.header().original();
    return "A digital recording (\"transfer\") of one side of a record, "
        + PlainWords.duration(seconds(frames))
        + " long, "
        + (format.channels() == 1 ? "one channel" : "two channels")
        + ", file "
        + original.name()
        + ". Treated on "
        + ledger.header().createdUtc().substring(0, 10)
        + ".";
  }

  /**
   * @param asItWas the original file was read just now and has the digest that the ledger holds
   */
  List<String> inShort(boolean asItWas) {
    LedgerTotals totals = ledger.totals();
    List<String> all = new ArrayList<>();
    if (totals.changedSamples() == 0) {
      all.add("Nothing was changed: the clean copy sounds exactly as the transfer does.");
      return all;
    }
    StringBuilder text = new StringBuilder();
    if (survey.all().places() > 0) {
      text.append(
              PlainWords.count(survey.all().places(), "damaged place was", "damaged places were"))
          .append(" repaired");
    }
    if (ledger.header().wholeSignal()) {
      text.append(text.isEmpty() ? "The" : ", and the")
          .append(" sound was cleaned all along the side");
    }
    text.append(
        asItWas
            ? ". The transfer itself was only read; it is as it was, which was checked just now."
            : ". The transfer itself was only read; it was not at hand when this page was made.");
    all.add(text.toString());
    LedgerParent parent = ledger.header().parent();
    if (parent != null) {
      all.add(
          "This copy came after an earlier one: of the "
              + PlainWords.count(parent.edits(), "repair", "repairs")
              + " there, "
              + String.format(Locale.ROOT, "%,d", parent.undone())
              + (parent.undone() == 1 ? " was" : " were")
              + " taken back"
              + (parent.decisions() == null ? "" : ", as " + parent.decisions() + " decides")
              + ". The earlier ledger is "
              + parent.ledger()
              + ", fingerprint "
              + Fingerprint.of(parent.seal())
              + ".");
    }
    return all;
  }

  List<String> done() {
    List<String> all = new ArrayList<>();
    for (AppliedStage stage : ledger.header().stages()) {
      all.add(done(stage));
    }
    if (all.isEmpty()) {
      all.add("Nothing: no treatment was applied.");
    }
    return all;
  }

  private String done(AppliedStage applied) {
    AccountSurvey.Repairs repairs = survey.of(applied.name());
    StageId stage = StageId.ofKey(applied.name()).orElse(null);
    if (stage == null) {
      return "A treatment named \"" + applied.name() + "\".";
    }
    return switch (stage) {
      case CLICKS ->
          repaired(
              "Ticks and pops",
              repairs,
              "short disturbances, such as scratches and dust make, were replaced by sound worked"
                  + " out from what is heard just before and after");
      case CRACKLE ->
          repaired(
              "Crackle",
              repairs,
              "very small ticks were found by a second search and replaced too");
      case THUMPS ->
          repaired(
              "Thumps",
              repairs,
              "low thuds, which the needle makes where the groove is broken, were taken out from under the music");
      case HUM ->
          "Hum: the steady low tone that mains electricity leaves was looked for and, where it was certain, taken out all along the side.";
      case RUMBLE ->
          "Rumble: the low rumbling of turntable and warps, below the music, was taken out all along the side.";
      case CURVE ->
          "Tone balance: records are cut with weak bass and strong treble; this was changed by a fixed, known rule, which the ledger names.";
      case MONO ->
          "One channel of two: both walls of the groove hold the same music; they were lined up and joined, the better wall counting more.";
      case NOISE -> noise();
    };
  }

  private String repaired(String what, AccountSurvey.Repairs repairs, String how) {
    if (repairs.places() == 0) {
      return what + ": looked for; none was certain enough, nothing was changed.";
    }
    return what
        + ": "
        + PlainWords.count(repairs.places(), "place", "places")
        + "; "
        + how
        + ". Together "
        + PlainWords.duration(seconds(repairs.frames()))
        + " of "
        + PlainWords.duration(seconds(frames))
        + "; the longest lasts "
        + PlainWords.duration(seconds(repairs.longest()))
        + ".";
  }

  private String noise() {
    double share = noiseShare();
    return "Hiss: the even rushing of the groove was lowered all along the side, not taken out, so that the music keeps its air."
        + (Double.isNaN(share)
            ? ""
            : " "
                + where()
                + " it now sounds about "
                + Math.round(100 * share)
                + " % as loud as before (by a rule of thumb for hearing).");
  }

  private String where() {
    return "quietest passage".equals(analysis("noiseFloor").get("place"))
        ? "In the quietest passage"
        : "Where the groove alone is heard,";
  }

  /** How loud the noise sounds after, before being 1; NaN if nobody measured it. */
  double noiseShare() {
    Map<?, ?> floor = analysis("noiseFloor");
    double change = level(floor.get("after")) - level(floor.get("before"));
    return Double.isFinite(change) ? StrictMath.pow(2, change / HALF_AS_LOUD_DB) : Double.NaN;
  }

  /** Mean power of the channels as the ear weighs it, dB. */
  private static double level(Object side) {
    if (!(side instanceof Map<?, ?> map) || !(map.get("channels") instanceof List<?> channels)) {
      return Double.NaN;
    }
    double power = 0;
    for (Object channel : channels) {
      Object db = channel instanceof Map<?, ?> levels ? levels.get("dbfsAWeighted") : null;
      power += db instanceof Number n ? StrictMath.pow(10, n.doubleValue() / 10) : Double.NaN;
    }
    return 10 * StrictMath.log10(power / channels.size());
  }

  List<String> amount(AccountSurvey.Compared compared) {
    LedgerTotals totals = ledger.totals();
    List<String> all = new ArrayList<>();
    double samples = Math.max(1, frames * (double) format.channels());
    all.add(
        "Of the "
            + String.format(Locale.ROOT, "%.1f million", samples / 1e6)
            + " numbers that make up the sound, "
            + PlainWords.share(totals.changedSamples(), samples)
            + " differ between transfer and clean copy"
            + (ledger.header().wholeSignal() && totals.changedSamples() > 0
                ? ", most of them by very little: cleaning along the whole side touches every one."
                : "."));
    if (survey.all().places() > 0) {
      all.add(repairedTime());
    }
    if (compared != null && compared.largest() > 0) {
      all.add(
          "The largest single change is "
              + PlainWords.moment(seconds(compared.largestAt()))
              + ", "
              + PlainWords.strength(compared.largest() / compared.peak())
              + " the loudest moment of the clean copy.");
      all.add(
          "All that was taken away is on average "
              + PlainWords.strength(compared.changeRms() / compared.rms())
              + " the sound of the transfer.");
    }
    return all;
  }

  private String repairedTime() {
    AccountSurvey.Repairs repairs = survey.all();
    String touched =
        PlainWords.duration(seconds(repairs.frames()))
            + ", "
            + PlainWords.share(repairs.frames(), frames)
            + " of the side.";
    if (repairs.unknown() == 0 || repairs.unknown() * TRACES > repairs.frames()) {
      return "Time that lies in repairs: " + touched;
    }
    return "Sound that was replaced: "
        + PlainWords.duration(seconds(repairs.unknown()))
        + ", "
        + PlainWords.share(repairs.unknown(), frames)
        + " of the side. With the faint traces that each damaged place left behind it, which were"
        + " taken out from under the music, the repairs reach over "
        + touched;
  }

  List<String> leftAlone(boolean outsideProved) {
    List<String> all = new ArrayList<>();
    all.add(
        "Length and speed: the copy has exactly as many samples as the transfer, at the same rate.");
    if (!ledger.header().wholeSignal()) {
      all.add(
          "Everything outside the repaired places: there the copy is the transfer, sample for sample"
              + (outsideProved ? " (checked just now)." : "."));
    }
    Map<?, ?> left = analysis("leftAlone");
    if (left.get("places") instanceof Long places
        && places > 0
        && left.get("frames") instanceof Long length) {
      all.add(
          PlainWords.count(places, "place that looks", "places that look")
              + " damaged, but too long to be filled truthfully: together "
              + PlainWords.duration(seconds(length))
              + ". A person should listen there.");
    }
    return all;
  }

  List<String> doubts() {
    List<String> all = new ArrayList<>();
    Object alarms = analysis("clicks").get("alarms");
    AccountSurvey.Repairs clicks = survey.of(StageId.CLICKS.key());
    if (clicks.places() > 0
        && alarms instanceof Map<?, ?> rates
        && rates.get("perMinute") instanceof Number rate) {
      double minutes = seconds(frames) / 60;
      long likely = Math.round(rate.doubleValue() * minutes);
      String most =
          rates.get("high") instanceof Number high
              ? "; most likely not more than " + (long) Math.ceil(high.doubleValue() * minutes)
              : "";
      all.add(
          "By the program's own estimate "
              + (likely == 0 ? "hardly any" : "about " + likely)
              + " of the "
              + String.format(Locale.ROOT, "%,d", clicks.places())
              + " ticks and pops may have been music"
              + most
              + ".");
    }
    long clipped = ledger.totals().clippedSamples();
    if (clipped > 0) {
      all.add(
          PlainWords.count(clipped, "sample of the copy was", "samples of the copy were")
              + " too loud for the file and had to be limited.");
    }
    ledger.totals().warnings().stream()
        .map(AccountWords::withoutOptions)
        .filter(warning -> !warning.isEmpty())
        .forEach(all::add);
    all.add(
        all.isEmpty()
            ? "Nothing stood out to the program. That is no proof: only listening tells whether the music is whole."
            : "No measurement replaces listening: whether the music is whole is for people to judge.");
    return all;
  }

  /** Without sentences that tell what to type: they are for whoever runs the program. */
  private static String withoutOptions(String warning) {
    return Arrays.stream(warning.split("(?<=[.]) "))
        .filter(sentence -> !sentence.contains(" --"))
        .collect(Collectors.joining(" "));
  }

  private Map<?, ?> analysis(String name) {
    return ledger.analyses().stream()
        .filter(analysis -> analysis.name().equals(name))
        .map(AnalysisRecord::result)
        .findFirst()
        .orElse(Map.of());
  }
}
