package org.groovemend.job.deliver;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.job.restore.CurvePlan;
import org.groovemend.job.speed.SpeedCopy;
import org.groovemend.tags.TagField;
import org.groovemend.technical.AudioObject;
import org.groovemend.technical.Disc;
import org.groovemend.technical.TechnicalDocument;

/** Technical metadata of the copies of one side, beside them as XML. */
final class CopyMetadata {

  private CopyMetadata() {}

  static String name(String base) {
    return base + ".technical.xml";
  }

  static void write(Path folder, DeliverySide side, List<DeliverOutcome.Copy> copies)
      throws IOException {
    List<AudioObject> objects = new ArrayList<>();
    String face = side.asked().tags().tags().get(TagField.SIDE);
    for (DeliverOutcome.Copy copy : copies) {
      boolean untouched = copy.kind() == CopyKind.PRESERVATION;
      // the disc is told once
      Disc disc = objects.isEmpty() ? side.asked().disc() : null;
      objects.add(
          new AudioObject(
              copy.file(),
              copy.kind().key() + " copy",
              face == null ? "" : face,
              List.of(),
              disc,
              untouched ? null : side.original(),
              untouched ? List.of() : history(side, copy)));
    }
    Files.write(folder.resolve(name(side.base())), TechnicalDocument.write(objects));
  }

  private static List<String> history(DeliverySide side, DeliverOutcome.Copy copy) {
    List<String> steps = new ArrayList<>();
    if (copy.kind() == CopyKind.SERVICE) {
      steps.add(
          "restored by "
              + (side.stages().isEmpty() ? "no stage" : String.join(", ", side.stages()))
              + "; ledger "
              + side.ledger().name());
    } else if (side.curve() != null) {
      steps.add("a playback curve was" + CurvePlan.doneInWords(side.curve()));
    }
    if (!side.asked().speed().neutral()) {
      steps.add(SpeedCopy.what(side.asked().speed()));
    }
    if (copy.gainDb() != 0) {
      steps.add(String.format(Locale.ROOT, "gain %+.2f dB", copy.gainDb()));
    }
    return steps;
  }
}
