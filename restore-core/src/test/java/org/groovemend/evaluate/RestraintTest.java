package org.groovemend.evaluate;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.chain.Progress;
import org.groovemend.job.restore.Treatment;
import org.groovemend.simulate.RestraintPiece;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Undamaged pieces at 48 kHz through the default repair: at most 2 repairs a minute and 0.01 % of
 * samples, all together.
 */
class RestraintTest {
  @TempDir Path folder;

  @Test
  void soundThatLooksLikeDamageIsLeftAlone() throws Exception {
    List<Sound> sounds = new ArrayList<>();
    for (RestraintPiece piece : RestraintPiece.values()) {
      sounds.add(Sound.restraint(piece, 48_000, 4, 1));
    }
    Request request = new Request(List.of(), List.of(), sounds, 1, Treatment.defaults(), "test");
    List<Trial> trials = Bench.run(request, folder, Crew.alone(), Progress.SILENT);
    assertThat(trials).hasSize(6);
    double minutes = trials.stream().mapToDouble(t -> t.score().minutes()).sum();
    int repairs = trials.stream().mapToInt(t -> t.score().repairs()).sum();
    assertThat(repairs / minutes).isLessThanOrEqualTo(2);
    assertThat(trials).allMatch(t -> t.score().changedShare() < 1e-4);
  }
}
