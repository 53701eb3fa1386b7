package org.groovemend.job.restore;

import java.util.List;
import java.util.Map;
import org.groovemend.listening.Passage;

/**
 * What the page says of noise and music before and after.
 *
 * @param noiseFloor place, levels and third octaves, by name; null if there was none to measure
 * @param keptMusic one for each range of frequency; empty if only places were repaired, which
 *     leaves every other sample as it was, or if no page was asked for
 * @param listening passages to listen to; empty if no page was asked for
 */
public record SideComparison(
    Map<String, Object> noiseFloor, List<KeptMusic> keptMusic, List<Passage> listening) {

  public SideComparison {
    keptMusic = List.copyOf(keptMusic);
    listening = List.copyOf(listening);
  }
}
