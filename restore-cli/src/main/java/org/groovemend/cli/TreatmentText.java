package org.groovemend.cli;

import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.job.restore.Treatment;
import org.groovemend.stage.Setting;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/**
 * A treatment as a commented YAML file; the comments come from the declarations beside the settings
 * themselves.
 */
final class TreatmentText {

  private static final int COLUMNS = 96;

  private TreatmentText() {}

  static String of(Treatment treatment) {
    StringBuilder out = new StringBuilder();
    comment(
        out,
        "",
        "Treatment file for groovemend. What is left out keeps its default; unknown keys are refused.");
    comment(out, "", "Version of this file's form.");
    out.append("treatment: ").append(Treatment.FILE_VERSION).append("\n\n");
    comment(
        out,
        "",
        "How the transfer was made: riaa or another curve, said as under curve, flat, or unknown. Clicks are short only in a flat"
            + " signal; a curve is undone where they are looked for.");
    out.append("captured: ").append(treatment.captured().key()).append("\n\n");
    comment(
        out,
        "",
        "Stages to apply; they always run in this order: "
            + String.join(", ", stageKeys(List.of(StageId.values())))
            + ".");
    out.append("stages: [")
        .append(String.join(", ", stageKeys(treatment.stages())))
        .append("]\n\n");
    for (StageParameters parameters : treatment.parameters()) {
      out.append(parameters.stage().key()).append(":\n");
      for (RecordComponent component : parameters.getClass().getRecordComponents()) {
        describe(out, component);
        out.append("  ").append(component.getName()).append(": ");
        Object value = Settings.value(component, parameters);
        out.append(value instanceof String text ? quoted(text) : Settings.text(value)).append("\n");
      }
      out.append("\n");
    }
    comment(
        out,
        "",
        "Seed of the dither that is added where samples are requantised: any whole number; same seed, same bytes.");
    out.append("ditherSeed: ").append(treatment.ditherSeed()).append("\n");
    return out.toString();
  }

  /**
   * The same treatment in few words: without comments, and only what differs from the defaults of
   * this version.
   */
  static String brief(Treatment treatment) {
    StringBuilder out = new StringBuilder();
    out.append("treatment: ").append(Treatment.FILE_VERSION).append('\n');
    out.append("captured: ").append(quoted(treatment.captured().key())).append('\n');
    out.append("stages: [").append(String.join(", ", stageKeys(treatment.stages()))).append("]\n");
    List<StageParameters> usual = Treatment.defaults().parameters();
    for (int i = 0; i < usual.size(); i++) {
      StageParameters parameters = treatment.parameters().get(i);
      if (parameters.equals(usual.get(i))) {
        continue;
      }
      out.append(parameters.stage().key()).append(":\n");
      for (RecordComponent component : parameters.getClass().getRecordComponents()) {
        Object value = Settings.value(component, parameters);
        if (!value.equals(Settings.value(component, usual.get(i)))) {
          out.append("  ").append(component.getName()).append(": ");
          out.append(value instanceof String text ? quoted(text) : Settings.text(value));
          out.append('\n');
        }
      }
    }
    return out.append("ditherSeed: ").append(treatment.ditherSeed()).append('\n').toString();
  }

  private static void describe(StringBuilder out, RecordComponent component) {
    Setting setting = Settings.declaration(component);
    comment(out, "  ", setting.why() + ".");
    StringBuilder range = new StringBuilder();
    if (Double.isFinite(setting.min()) || Double.isFinite(setting.max())) {
      range
          .append(Settings.number(setting.min()))
          .append(" to ")
          .append(Settings.number(setting.max()));
    } else if (component.getType().isEnum()) {
      List<String> names = new ArrayList<>();
      for (Object constant : component.getType().getEnumConstants()) {
        names.add(constant.toString().toLowerCase(Locale.ROOT));
      }
      range.append(String.join(", ", names));
    }
    if (!setting.unit().isEmpty()) {
      range.append(range.isEmpty() ? "" : " ").append(setting.unit());
    }
    if (!range.isEmpty()) {
      comment(out, "  ", "Range: " + range + ".");
    }
  }

  /** In double quotes, as YAML 1.2 reads it; it holds no control characters. */
  private static String quoted(String text) {
    return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
  }

  private static void comment(StringBuilder out, String indent, String text) {
    StringBuilder line = new StringBuilder(indent).append('#');
    for (String word : text.split(" ")) {
      if (line.length() + 1 + word.length() > COLUMNS) {
        out.append(line).append('\n');
        line = new StringBuilder(indent).append('#');
      }
      line.append(' ').append(word);
    }
    out.append(line).append('\n');
  }

  private static List<String> stageKeys(List<StageId> stages) {
    return stages.stream().map(StageId::key).toList();
  }
}
