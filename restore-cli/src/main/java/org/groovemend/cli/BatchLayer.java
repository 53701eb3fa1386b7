package org.groovemend.cli;

import java.nio.file.Path;
import org.groovemend.job.side.TimeRange;

/**
 * Part of what is asked for of a side, as a manifest or a rule says it; a later layer goes over an
 * earlier one.
 *
 * @param treatment settings that differ, or null
 * @param leadIn groove-only stretch, or null
 * @param grooveOf a side of the same disc by its name, or a file; or null
 * @param folder that such a file is looked for from
 */
record BatchLayer(YamlMap treatment, TimeRange leadIn, String grooveOf, Path folder) {

  static final BatchLayer EMPTY = new BatchLayer(null, null, null, null);

  boolean isEmpty() {
    return treatment == null && leadIn == null && grooveOf == null;
  }
}
