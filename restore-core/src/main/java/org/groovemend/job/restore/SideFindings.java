package org.groovemend.job.restore;

import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.click.CaptureFinding;
import org.groovemend.hum.HumFinding;
import org.groovemend.job.side.Survey;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.ledger.FileFacts;
import org.groovemend.measure.ChannelLevels;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.report.Fact;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.stage.Setting;
import org.groovemend.stage.StageParameters;

/** Measurements in words for the page. */
public final class SideFindings {

  private SideFindings() {}

  static List<Fact> ofFile(
      FileFacts file, List<String> parts, CaptureCurve captured, CaptureFinding told) {
    AudioFormat format = file.format();
    return List.of(
        Fact.of("File", file.name(), ""),
        Fact.of("Container", file.container(), ""),
        new Fact("Parts", Integer.toString(parts.size()), "", String.join(", ", parts) + "."),
        Fact.of("Sampling rate", grouped(format.sampleRateHz()), "Hz"),
        Fact.of("Word", word(format), ""),
        Fact.of("Channels", Integer.toString(format.channels()), ""),
        new Fact(
            "Length",
            String.format(Locale.ROOT, "%.3f", format.seconds(file.frames())),
            "s",
            grouped(file.frames()) + " frames."),
        captured(captured, told));
  }

  /** "24-bit PCM", "32-bit float". */
  private static String word(AudioFormat format) {
    return format.containerBits()
        + (format.coding() == SampleCoding.PCM ? "-bit PCM" : "-bit float");
  }

  private static Fact captured(CaptureCurve stated, CaptureFinding told) {
    return told == null
        ? new Fact("Captured", stated.key(), "", said(stated))
        : new Fact("Captured", told.verdict(), "", told.inWords());
  }

  private static String said(CaptureCurve captured) {
    if (captured.isCurved()) {
      return "As stated: through a playback curve, "
          + captured.chosen().inWords()
          + "; clicks were looked for with the curve undone.";
    }
    return captured.isFlat()
        ? "As stated: without a playback curve."
        : "Not stated; treated as if there had been no playback curve.";
  }

  private static String grouped(long number) {
    return String.format(Locale.ROOT, "%,d", number);
  }

  static List<Fact> ofSound(
      Survey survey, LeadInFinding leadIn, Plan plan, RotationFinding rotation) {
    List<Fact> facts = new ArrayList<>();
    AudioFormat format = survey.facts().format();
    List<ChannelLevels> channels = survey.levels().channels();
    for (int c = 0; c < channels.size(); c++) {
      String where = wall(c, channels.size());
      ChannelLevels level = channels.get(c);
      facts.add(Fact.of("Peak" + where, db(level.peakDbfs()), "dBFS"));
      facts.add(Fact.of("RMS" + where, db(level.rmsDbfs()), "dBFS"));
      facts.add(Fact.of("Offset" + where, percent(level.dcOffset()), "of full scale"));
      if (level.clippedRuns() == 0) {
        facts.add(Fact.of("Clipped runs" + where, "none", ""));
      } else {
        facts.add(
            new Fact(
                "Clipped runs" + where,
                Long.toString(level.clippedRuns()),
                "",
                String.format(
                    Locale.ROOT,
                    "Three or more equal samples at the top; the first at %.3f s. If it is music, capture again.",
                    format.seconds(level.firstClippedFrame()))));
      }
    }
    if (leadIn.found()) {
      facts.add(
          new Fact(
              "Bare groove",
              String.format(
                  Locale.ROOT,
                  "%.2f to %.2f",
                  format.seconds(leadIn.startFrame()),
                  format.seconds(leadIn.endFrame())),
              "s",
              String.format(
                  Locale.ROOT,
                  "Confidence %.0f %%: %s.",
                  100 * leadIn.confidence(),
                  leadIn.reason())));
      if (Double.isFinite(leadIn.levelDbfs())) {
        facts.add(Fact.of("Groove noise there", db(leadIn.levelDbfs()), "dBFS"));
      }
    } else {
      facts.add(new Fact("Bare groove", "not found", "", upper(leadIn.reason()) + "."));
    }
    if (survey.levels().silent()) {
      facts.add(
          new Fact("Bits used", "none", "", "Every sample is zero: the side is digital silence."));
    } else if (survey.levels().usedBits() < format.significantBits()) {
      facts.add(
          new Fact(
              "Bits used",
              survey.levels().usedBits() + " of " + format.significantBits(),
              "",
              "The sound was once kept in fewer bits than the file has."));
    }
    if (plan.clicks() != null) {
      facts.add(ClickRecallPage.alarms(plan.clicks()));
      Fact found = ClickRecallPage.found(plan.clicks().recall());
      if (found != null) {
        facts.add(found);
      }
    }
    if (plan.hum() != null) {
      facts.addAll(ofHum(plan.hum()));
    }
    if (plan.rumble() != null) {
      facts.addAll(RumblePage.found(plan.rumble()));
    }
    if (plan.walls() != null) {
      facts.addAll(WallsPage.found(plan.walls(), format));
    }
    if (plan.repairs()) {
      facts.add(ofRotation(rotation));
    }
    return facts;
  }

  /** What is added to the name of something that each channel has. */
  public static String wall(int channel, int channels) {
    return channels == 1 ? "" : channel == 0 ? ", left" : ", right";
  }

  /** One fact a line, so that the evidence can be read. */
  static List<Fact> ofHum(HumFinding hum) {
    if (!hum.found()) {
      return List.of(new Fact("Hum", "none taken", "", hum.reason()));
    }
    List<Fact> facts = new ArrayList<>();
    for (HumFinding.Family family : hum.families()) {
      for (HumFinding.Line line : family.lines()) {
        facts.add(
            new Fact(
                "Hum line, channel " + (line.channel() + 1),
                String.format(Locale.ROOT, "%.2f", line.hertz()),
                "Hz",
                String.format(
                    Locale.ROOT,
                    "%s dBFS, %.0f dB over its neighbourhood; evidence %.0f decibans; it would have stood out at %d moments and was missing at %d.",
                    db(line.levelDbfs()),
                    line.overFloorDb(),
                    line.decibans(),
                    line.momentsSeen(),
                    line.momentsMissing())));
      }
    }
    return facts;
  }

  static Fact ofRotation(RotationFinding rotation) {
    return rotation.found()
        ? new Fact(
            "Scratches",
            Integer.toString(rotation.scratches().size()),
            "",
            "Turntable "
                + rotation.speedInWords()
                + " from the repaired places themselves, "
                + rotation.chanceInWords()
                + "; music in strict time can look the same.")
        : new Fact(
            "Scratches",
            "none told",
            "",
            "No row of ticks recurs once a turn clearly more evenly than chance would have it.");
  }

  static List<Fact> ofSettings(StageParameters parameters) {
    List<Fact> facts = new ArrayList<>();
    for (RecordComponent component : parameters.getClass().getRecordComponents()) {
      Setting setting = component.getAnnotation(Setting.class);
      try {
        facts.add(
            new Fact(
                component.getName(),
                value(component.getAccessor().invoke(parameters)),
                setting == null ? "" : setting.unit(),
                setting == null ? "" : setting.why() + "."));
      } catch (ReflectiveOperationException e) {
        throw new IllegalStateException(e);
      }
    }
    return facts;
  }

  /** Four digits at most; the ledger has them all. */
  private static String value(Object setting) {
    if (!(setting instanceof Double number)) {
      return setting instanceof Enum<?> choice
          ? choice.name().toLowerCase(Locale.ROOT)
          : String.valueOf(setting);
    }
    BigDecimal exact = BigDecimal.valueOf(number);
    BigDecimal rounded = exact.round(new MathContext(4));
    return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
  }

  private static String percent(double share) {
    // adding 0 turns a negative zero into a positive one
    return String.format(Locale.ROOT, "%.4f %%", Math.rint(1e6 * share) / 1e4 + 0.0);
  }

  private static String upper(String sentence) {
    return sentence.substring(0, 1).toUpperCase(Locale.ROOT) + sentence.substring(1);
  }

  static String db(double value) {
    return Double.isInfinite(value) ? "-inf" : String.format(Locale.ROOT, "%.1f", value);
  }
}
