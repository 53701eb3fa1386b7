package org.groovemend.job.undo;

import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.groovemend.audio.FilePath;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.LedgerNames;

/** Names of the files of a copy of which edits were taken back. */
final class UndoneNames {

  private static final Pattern GENERATION = Pattern.compile("(.+)\\.undo-(\\d{1,6})");

  private UndoneNames() {}

  /**
   * The names: {@code side} has the child {@code side.undo-1}, and that has {@code side.undo-2}.
   *
   * @param nameOrNull NAME as a person wants it
   */
  static LedgerNames of(Path parentLedger, String nameOrNull, int containerBits) {
    String name = nameOrNull;
    if (name == null) {
      String parent = LedgerNames.beside(parentLedger, containerBits).name();
      Matcher matcher = GENERATION.matcher(parent);
      name =
          matcher.matches()
              ? matcher.group(1) + ".undo-" + (Integer.parseInt(matcher.group(2)) + 1)
              : parent + ".undo-1";
    } else if (!plain(name)) {
      throw new RequestRefusedException(
          "\""
              + name
              + "\" is not a name for files; give one without folders, such as side.gentler");
    }
    return LedgerNames.named(name, containerBits);
  }

  private static boolean plain(String name) {
    Path file = Path.of(name);
    return !name.isBlank() && file.getFileName() != null && FilePath.name(file).equals(name);
  }

  static String decisions(LedgerNames names) {
    return DecisionDocument.nameBeside(names.ledger());
  }
}
