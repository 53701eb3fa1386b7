package org.groovemend.job.bands;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.groovemend.audio.FilePath;
import org.groovemend.bands.BandPiece;
import org.groovemend.bands.BandPlan;

/**
 * Names of the files of the pieces of a side: SIDE-NN-Title, what no file system takes replaced.
 */
final class PieceNames {
  private PieceNames() {}

  static List<String> of(Path side, BandPlan plan, boolean flac) {
    int digits = plan.bands().size() > 99 ? 3 : 2;
    String end = flac ? ".flac" : ".wav";
    List<String> names = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (BandPiece piece : plan.pieces()) {
      String title =
          piece.kind() == BandPiece.Kind.BAND ? safe(piece.title()) : piece.kind().word();
      String name =
          stem(side)
              + String.format(Locale.ROOT, "-%0" + digits + "d", piece.number())
              + (title.isEmpty() ? "" : "-" + title)
              + end;
      if (!seen.add(name)) {
        throw new IllegalStateException("two pieces of one name: " + name);
      }
      names.add(name);
    }
    return names;
  }

  /** What a file system of any kind takes, at most 120 bytes. */
  static String safe(String title) {
    StringBuilder out = new StringBuilder();
    int bytes = 0;
    for (int i = 0; i < title.length(); ) {
      int c = title.codePointAt(i);
      i += Character.charCount(c);
      boolean odd =
          Character.isISOControl(c)
              || !Character.isDefined(c)
              || c >= 0xd800 && c < 0xe000
              || Character.getType(c) == Character.FORMAT
              || "/\\:*?\"<>|".indexOf(c) >= 0;
      String one = odd ? "_" : Character.toString(c);
      bytes += one.getBytes(StandardCharsets.UTF_8).length;
      if (bytes > 120) {
        break;
      }
      out.append(one);
    }
    return out.toString().strip().replaceAll("[. ]+$", "");
  }

  static String stem(Path side) {
    String name = FilePath.name(side);
    int dot = name.lastIndexOf('.');
    return dot > 0 ? name.substring(0, dot) : name;
  }
}
