package org.groovemend.evaluate;

import java.util.List;
import org.groovemend.job.restore.Treatment;

/**
 * What is to be tried.
 *
 * @param sounds undamaged
 * @param scenarios what is done to each
 * @param untouchable undamaged sounds that look like damage, tried clean only and once
 * @param seeds how many different copies of each, 1 or more
 * @param treatment settings; stages and capture curve follow from the scenario
 * @param toolVersion for the ledgers
 */
public record Request(
    List<Sound> sounds,
    List<Scenario> scenarios,
    List<Sound> untouchable,
    int seeds,
    Treatment treatment,
    String toolVersion) {
  public Request {
    sounds = List.copyOf(sounds);
    untouchable = List.copyOf(untouchable);
    scenarios = scenarios.stream().distinct().sorted().toList();
    boolean damaging = !sounds.isEmpty() && !scenarios.isEmpty();
    if (!damaging && untouchable.isEmpty() || seeds < 1) {
      throw new IllegalArgumentException("nothing to try");
    }
  }

  /** Without untouchable sounds. */
  public Request(
      List<Sound> sounds,
      List<Scenario> scenarios,
      int seeds,
      Treatment treatment,
      String toolVersion) {
    this(sounds, scenarios, List.of(), seeds, treatment, toolVersion);
  }
}
