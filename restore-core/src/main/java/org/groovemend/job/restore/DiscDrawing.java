package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.report.DiscLayout;
import org.groovemend.report.DiscMap;
import org.groovemend.report.DiscMark;
import org.groovemend.report.DiscMarksBuilder;
import org.groovemend.report.Figure;
import org.groovemend.report.Pictures;
import org.groovemend.rotation.DiscSpeed;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rotation.Scratch;
import org.groovemend.rotation.TickGatherer;
import org.groovemend.stage.StageId;

/** What the repairs of a side say of its disc, and its picture: the parts that jobs share. */
public final class DiscDrawing {

  private DiscDrawing() {}

  /** Takes a repair as a tick; crackle is too dense to recur. */
  public static void tick(TickGatherer ticks, String stage, long start, double statistic) {
    if (!stage.equals(StageId.CRACKLE.key())) {
      ticks.add(start, statistic);
    }
  }

  public static DiscMark.Kind kind(String stage) {
    return StageId.ofKey(stage)
        .map(
            id ->
                switch (id) {
                  case CRACKLE -> DiscMark.Kind.CRACKLE;
                  case THUMPS -> DiscMark.Kind.THUMP;
                  default -> DiscMark.Kind.CLICK;
                })
        .orElse(DiscMark.Kind.CLICK);
  }

  /** The commonest disc of a speed. */
  public static DiscLayout layout(long frames, int sampleRateHz, double rpm) {
    DiscSpeed speed = DiscSpeed.nearest(rpm);
    return new DiscLayout(frames, sampleRateHz, 60 / rpm, speed.outerMm(), speed.innerMm());
  }

  /**
   * @param stated true if a person gave the speed
   */
  public static DiscMap map(
      String side,
      DiscLayout layout,
      boolean stated,
      RotationFinding rotation,
      List<DiscMap.FrameRange> bare) {
    double rpm = 60 / layout.turnSeconds();
    List<String> lines = new ArrayList<>();
    lines.add(speed(rpm) + " rpm");
    if (stated) {
      lines.add("as stated");
    } else {
      lines.add("from the repairs");
      lines.add(
          DiscSpeed.of(rpm).map(speed -> "nominal " + speed.words()).orElse("no nominal speed:"));
      if (DiscSpeed.of(rpm).isEmpty()) {
        lines.add("may be the beat");
      }
    }
    return new DiscMap(
        side + ": repaired places as the disc lies",
        layout,
        lines,
        DiscSpeed.nearest(rpm).disc(),
        rotation.scratches().stream().map(Scratch::frames).toList(),
        bare);
  }

  /** At most two decimals. */
  public static String speed(double rpm) {
    return String.format(Locale.ROOT, "%.2f", rpm).replaceFirst("\\.?0+$", "");
  }

  static Figure figure(DiscMap map, DiscMarksBuilder marks) {
    return new Figure(
        "The side as the disc lies",
        "The disc seen from above, outer groove outside, with every repaired place as a mark.",
        "Angle against radius; time runs inwards, counter-clockwise. Dots: clicks; grey specks: crackle; wedges: thumps;"
            + " joined rings: rows that recur once a turn, as scratches do. Turntable speed from the repairs, radii as"
            + " common for it, pitch taken as constant; how the label lies to the mark at the top is not known.",
        Pictures.disc(map, marks));
  }

  public static List<DiscMap.FrameRange> bare(LeadInFinding leadIn) {
    List<DiscMap.FrameRange> bare = new ArrayList<>();
    if (leadIn.found()) {
      bare.add(new DiscMap.FrameRange(leadIn.startFrame(), leadIn.endFrame()));
    }
    if (leadIn.runOut() != null) {
      bare.add(new DiscMap.FrameRange(leadIn.runOut().startFrame(), leadIn.runOut().endFrame()));
    }
    return bare;
  }

  /** The same from a ledger, which may be of another version of the program, or have none. */
  public static List<DiscMap.FrameRange> bare(List<AnalysisRecord> analyses, long frames) {
    List<DiscMap.FrameRange> bare = new ArrayList<>();
    for (AnalysisRecord analysis : analyses) {
      if (analysis.name().equals(SideRecord.LEAD_IN)) {
        Map<?, ?> leadIn = analysis.result();
        if (Boolean.TRUE.equals(leadIn.get("found"))) {
          range(leadIn, frames).ifPresent(bare::add);
        }
        if (leadIn.get("runOut") instanceof Map<?, ?> runOut) {
          range(runOut, frames).ifPresent(bare::add);
        }
      }
    }
    return bare;
  }

  private static Optional<DiscMap.FrameRange> range(Map<?, ?> stretch, long frames) {
    return stretch.get("startFrame") instanceof Long start
            && stretch.get("endFrame") instanceof Long end
            && start >= 0
            && end > start
            && end <= frames
        ? Optional.of(new DiscMap.FrameRange(start, end))
        : Optional.empty();
  }
}
