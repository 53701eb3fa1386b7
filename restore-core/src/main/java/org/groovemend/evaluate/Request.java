package org.groovemend.evaluate;

import java.util.List;
import org.groovemend.job.Treatment;

/**
 * What is to be tried.
 *
 * @param sounds undamaged
 * @param scenarios what is done to each
 * @param seeds how many different copies of each, 1 or more
 * @param treatment settings; stages and capture curve follow from the scenario
 * @param toolVersion for the ledgers
 */
public record Request(
    List<Sound> sounds,
    List<Scenario> scenarios,
    int seeds,
    Treatment treatment,
    String toolVersion) {
  public Request {
    sounds = List.copyOf(sounds);
    scenarios = scenarios.stream().distinct().sorted().toList();
    if (sounds.isEmpty() || scenarios.isEmpty() || seeds < 1) {
      throw new IllegalArgumentException("nothing to try");
    }
  }
}
