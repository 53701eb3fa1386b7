package org.groovemend.batch;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Pattern;
import org.groovemend.audio.FilePath;

/** Which names in a folder are taken for sides; what the files are is seen when they are read. */
public final class SideNames {
  private static final Pattern AUDIO =
      Pattern.compile("(?i).+\\.(wav|wave|bwf|rf64|bw64|aif|aiff|aifc|flac)");

  private static final Pattern RESULT =
      Pattern.compile("(?i)(.+)\\.(restored\\.wav|removed\\.\\w+)");

  private SideNames() {}

  /** Whether a file is named like a side, is not hidden, and is no result of a restoration. */
  public static boolean isSide(Path file) {
    String name = FilePath.name(file);
    return AUDIO.matcher(name).matches() && !name.startsWith(".") && !ownResult(file, name);
  }

  /** Results of a restoration that lies in the collection are no transfers. */
  private static boolean ownResult(Path file, String name) {
    var matcher = RESULT.matcher(name);
    return matcher.matches()
        && Files.exists(file.resolveSibling(matcher.group(1) + ".ledger.jsonl"));
  }
}
