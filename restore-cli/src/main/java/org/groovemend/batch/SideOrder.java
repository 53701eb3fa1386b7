package org.groovemend.batch;

import java.nio.file.Path;
import java.util.Map;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.side.TimeRange;

/**
 * What is asked for of one side of a collection.
 *
 * @param found the file
 * @param disc the disc it belongs to, or null
 * @param sideName which side of the disc, or null
 * @param series the rules that apply to it, by name, joined by ", "; or null
 * @param facts what is known of it besides
 * @param treatment all settings
 * @param leadIn groove-only stretch as a person states it, or null
 * @param grooveOf another transfer whose bare groove tells the noise, or null
 */
public record SideOrder(
    FoundSide found,
    String disc,
    String sideName,
    String series,
    Map<String, Object> facts,
    Treatment treatment,
    TimeRange leadIn,
    Path grooveOf) {

  /** A side of which nothing else is known. */
  public static SideOrder plain(FoundSide found, Treatment treatment) {
    return new SideOrder(found, null, null, null, Map.of(), treatment, null, null);
  }
}
