package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CancellationException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.chain.Progress;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;

class PlanTest {

  private static final int RATE = 22_050;

  /** Noise of 30 s that counts how often it is read. */
  private static final class Noise implements WordSource {
    private final AudioFormat format = AudioFormat.pcm(RATE, 1, 16);
    private int reads;

    @Override
    public AudioFormat format() {
      return format;
    }

    @Override
    public long frames() {
      return 30L * RATE;
    }

    @Override
    public void readWords(long firstFrame, int count, long[][] into, int offset) {
      reads++;
      Random random = new Random(firstFrame);
      for (int i = 0; i < count; i++) {
        into[0][offset + i] = Math.round(200 * random.nextGaussian());
      }
    }
  }

  private static Plan plan(
      WordSource side, List<StageId> stages, LeadInFinding leadIn, Progress progress)
      throws IOException {
    return Plan.make(
        side, Treatment.defaults().withStages(stages), leadIn, null, Crew.alone(), progress);
  }

  @Test
  void anAnalysisUnderWayStopsWhereItReadsNext() {
    LeadInFinding bare = LeadInFinding.stated(0, 25L * RATE, 30L * RATE);
    for (StageId stage : List.of(StageId.CLICKS, StageId.NOISE)) {
      Noise side = new Noise();
      int[] told = new int[1];
      assertThatThrownBy(
              () ->
                  plan(
                      side,
                      List.of(stage),
                      bare,
                      (step, done, total) -> {
                        if (side.reads == 2 && told[0]++ == 0) {
                          throw new CancellationException();
                        }
                      }))
          .isInstanceOf(CancellationException.class);
      assertThat(side.reads).as(stage.key()).isEqualTo(2);
    }
  }

  @Test
  void aStretchThatIsTooShortIsAMistakeOnlyIfAPersonStatedIt() throws IOException {
    LeadInFinding stated = LeadInFinding.stated(0, 1_000, 30L * RATE);
    assertThatThrownBy(() -> plan(new Noise(), List.of(StageId.NOISE), stated, Progress.SILENT))
        .isInstanceOf(RequestRefusedException.class)
        .hasMessageContaining("too short");
    LeadInFinding found = new LeadInFinding(true, 0, 1_000, 0.9, "steady noise", -40, false, null);
    Plan without = plan(new Noise(), List.of(StageId.NOISE), found, Progress.SILENT);
    assertThat(without.noise()).isNull();
    assertThat(without.skipped()).containsOnlyKeys(StageId.NOISE);
    assertThat(without.remarks()).singleElement().asString().contains("skipped", "too short");
  }

  @Test
  void aFaultOfTheProgramIsNeitherARemarkNorAMistakeOfThePerson() {
    WordSource broken =
        new WordSource() {
          @Override
          public AudioFormat format() {
            return AudioFormat.pcm(RATE, 1, 16);
          }

          @Override
          public long frames() {
            return 30L * RATE;
          }

          @Override
          public void readWords(long firstFrame, int count, long[][] into, int offset) {
            throw new IllegalArgumentException("a fault");
          }
        };
    LeadInFinding found =
        new LeadInFinding(true, 0, 10L * RATE, 0.9, "steady noise", -40, false, null);
    assertThatThrownBy(() -> plan(broken, List.of(StageId.NOISE), found, Progress.SILENT))
        .isExactlyInstanceOf(IllegalArgumentException.class);
  }
}
