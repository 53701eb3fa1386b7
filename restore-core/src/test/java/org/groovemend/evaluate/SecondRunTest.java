package org.groovemend.evaluate;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.groovemend.chain.Progress;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreOutcome;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.job.restore.Treatment;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.simulate.RestraintPiece;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What was repaired once is left alone the next time. */
class SecondRunTest {
  @TempDir Path folder;

  private RestoreOutcome restore(Path side, String out) throws Exception {
    Treatment treatment =
        Treatment.defaults()
            .withCaptured(CaptureCurve.RIAA)
            .withStages(List.of(StageId.CLICKS, StageId.THUMPS));
    return Restore.run(
        new RestoreRequest(
            side, folder.resolve(out), treatment, null, false, "test", Instant.EPOCH),
        Crew.alone(),
        Progress.SILENT,
        ReportWish.NONE);
  }

  private static long edits(RestoreOutcome outcome) {
    return outcome.editsByStage().values().stream().mapToLong(Long::longValue).sum();
  }

  @Test
  void aSecondRunOverRepairedClicksChangesHardlyAnything() throws Exception {
    Sound sound = Sound.restraint(RestraintPiece.CASTANETS, 44_100, 4, 1);
    Path side = folder.resolve("side.wav");
    Bench.write(DamagedCopy.of(sound, Scenario.CLICKS, 1).damaged(), 44_100, side);
    RestoreOutcome first = restore(side, "first");
    RestoreOutcome second = restore(first.restoredFile(), "second");
    assertThat(edits(first)).isGreaterThan(10);
    assertThat(edits(second)).isLessThanOrEqualTo(edits(first) / 10);
    assertThat(second.changedSamples()).isLessThanOrEqualTo(first.changedSamples() / 10);
  }

  @Test
  void undamagedSoundIsTheSameAfterTwoRuns() throws Exception {
    Sound sound = Sound.restraint(RestraintPiece.DRUM_KIT, 44_100, 4, 1);
    Path side = folder.resolve("side.wav");
    Bench.write(sound.samples(), 44_100, side);
    RestoreOutcome first = restore(side, "first");
    RestoreOutcome second = restore(first.restoredFile(), "second");
    assertThat(second.restored().samplesSha256()).isEqualTo(second.original().samplesSha256());
    assertThat(first.changedSamples()).isZero();
  }
}
