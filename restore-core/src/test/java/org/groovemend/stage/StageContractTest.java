package org.groovemend.stage;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import java.util.function.Supplier;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.Test;

/** Every law can be broken: toy stages that keep all but one are found out. */
class StageContractTest {

  private static final AudioFormat FORMAT = AudioFormat.ieeeFloat(44_100, 2, 64);
  private static final Segmentation CUT = new Segmentation(20_000, 2, 2);

  private record Toy(StageId stage, int version) implements StageParameters {}

  private record Signal(boolean neutral, Supplier<SignalStage.Worker> workers)
      implements SignalStage {
    @Override
    public StageParameters parameters() {
      return new Toy(StageId.NOISE, 1);
    }

    @Override
    public Segmentation segmentation(AudioFormat format) {
      return CUT;
    }

    @Override
    public Worker open(AudioFormat format) {
      return workers.get();
    }
  }

  private record Mender(boolean neutral, RepairStage.Worker worker) implements RepairStage {
    @Override
    public StageParameters parameters() {
      return new Toy(StageId.CLICKS, 1);
    }

    @Override
    public Segmentation segmentation(AudioFormat format) {
      return CUT;
    }

    @Override
    public Worker open(AudioFormat format) {
      return worker;
    }
  }

  /** What a sample becomes: given the window, channel and index within the arrays. */
  @FunctionalInterface
  private interface Rule {
    double at(SegmentWindow w, int channel, int index);
  }

  private static SignalStage.Worker each(Rule rule) {
    return (w, out) -> {
      for (int c = 0; c < w.channels(); c++) {
        for (int i = w.startIndex(); i < w.endIndex(); i++) {
          out[c][i - w.startIndex()] = rule.at(w, c, i);
        }
      }
    };
  }

  /**
   * Takes away half of every sample that stands out of its neighbours; {@code bend} makes it go
   * wrong.
   */
  private static RepairStage.Worker mend(Function<Repair, Repair> bend) {
    return w -> {
      List<Repair> found = new ArrayList<>();
      for (int i = w.startIndex(); i < w.endIndex(); i++) {
        for (int c = 0; c < w.channels(); c++) {
          double[] x = w.samples()[c];
          if (Math.abs(x[i]) > 0.3) {
            long at = w.firstFrame() + i;
            found.add(
                bend.apply(
                    new Repair(
                        c,
                        at,
                        new double[] {x[i] / 2},
                        new Repair.Evidence(1, 0, "toy", 0, at, 1, Double.NaN))));
          }
        }
      }
      return found;
    };
  }

  private static StageContract of(Stage stage, Stage neutral) {
    return new StageContract() {
      @Override
      protected Stage stage(ContractSide side, long bareFrames) {
        return stage;
      }

      @Override
      protected Stage neutral(ContractSide side, long bareFrames) {
        return neutral;
      }
    };
  }

  private static StageContract signal(Rule rule) {
    return signal(() -> each(rule));
  }

  private static StageContract signal(Supplier<SignalStage.Worker> workers) {
    return of(new Signal(false, workers), new Signal(true, workers));
  }

  private static StageContract mender(Function<Repair, Repair> bend) {
    return of(new Mender(false, mend(bend)), new Mender(true, mend(bend)));
  }

  private static void broken(ThrowingCallable law) {
    assertThatThrownBy(law).isInstanceOfAny(AssertionError.class, IllegalStateException.class);
  }

  @Test
  void goodToysKeepTheLaws() throws IOException {
    StageContract half =
        of(
            new Signal(false, () -> each((w, c, i) -> w.samples()[c][i] / 2)),
            new Signal(true, () -> each((w, c, i) -> w.samples()[c][i])));
    half.repeatable(FORMAT);
    half.handsDoNotMatter(FORMAT);
    half.aligned(FORMAT);
    half.honest(FORMAT);
    half.reversible(FORMAT);
    half.neutralSettingsReturnTheInput(FORMAT);
    half.silenceStaysSilent(FORMAT);
    half.edges(FORMAT);
    half.polarityDoesNotMatter(FORMAT);
    half.levelDoesNotMatter(FORMAT);
    half.channelsMayBeSwapped(FORMAT);
    StageContract mender = of(new Mender(false, mend(r -> r)), new Mender(true, w -> List.of()));
    assertThatCode(() -> mender.honest(FORMAT)).doesNotThrowAnyException();
    assertThatCode(() -> mender.reversible(FORMAT)).doesNotThrowAnyException();
    assertThatCode(() -> mender.neutralSettingsReturnTheInput(FORMAT)).doesNotThrowAnyException();
  }

  @Test
  void aStageThatDoesNothingIsNoSubject() {
    broken(() -> signal((w, c, i) -> w.samples()[c][i]).repeatable(FORMAT));
  }

  @Test
  void memoryFromOneRunToTheNextIsFound() {
    AtomicInteger segments = new AtomicInteger();
    SignalStage.Worker worker =
        (w, out) -> {
          double more = segments.incrementAndGet() * 1e-9;
          each((v, c, i) -> v.samples()[c][i] + more).treat(w, out);
        };
    broken(() -> signal(() -> worker).repeatable(FORMAT));
  }

  /** Each worker is a little different, so the result depends on how many there are. */
  @Test
  void aResultThatDependsOnTheHandsIsFound() {
    AtomicInteger workers = new AtomicInteger();
    broken(
        () ->
            signal(
                    () -> {
                      double more = workers.incrementAndGet() * 1e-9;
                      return each((w, c, i) -> w.samples()[c][i] + more);
                    })
                .handsDoNotMatter(FORMAT));
  }

  @Test
  void aDelayIsFound() {
    broken(() -> signal((w, c, i) -> i == 0 ? 0 : w.samples()[c][i - 1]).aligned(FORMAT));
  }

  @Test
  void aRepairThatChangesNothingIsFound() {
    broken(() -> mender(r -> with(r, r.start(), new double[] {1e-300})).honest(FORMAT));
    broken(() -> mender(r -> with(r, r.start(), new double[] {0})).honest(FORMAT));
  }

  @Test
  void aRepairBeforeItsSegmentIsFound() {
    broken(
        () ->
            mender(r -> with(r, Math.max(0, r.start() / 20_000 * 20_000 - 1), r.removed()))
                .honest(FORMAT));
  }

  @Test
  void repairsOutOfOrderAreFound() {
    RepairStage.Worker backwards =
        w -> {
          List<Repair> found = new ArrayList<>(mend(r -> r).repair(w));
          java.util.Collections.reverse(found);
          return found;
        };
    broken(() -> of(new Mender(false, backwards), null).honest(FORMAT));
  }

  @Test
  void writingInTheWindowIsFound() {
    broken(
        () ->
            signal(
                    () ->
                        (w, out) -> {
                          each((v, c, i) -> v.samples()[c][i] / 2).treat(w, out);
                          w.samples()[0][0] = 7;
                        })
                .honest(FORMAT));
  }

  /**
   * No stage can break this law alone, since the chain subtracts what it logs; a log that lost an
   * entry does.
   */
  @Test
  void aRepairMissingFromTheLogIsFoundByReversal() {
    AudioFormat pcm = AudioFormat.pcm(44_100, 1, 24);
    ContractSide side = ContractSide.of(pcm, new double[][] {{0.1, 0.5, 0.5, 0.1}});
    long[][] out = {side.words()[0].clone()};
    out[0][1] /= 2;
    out[0][2] /= 2;
    Repair.Evidence why = new Repair.Evidence(1, 0, "toy", 0, 1, 1, Double.NaN);
    Repair whole = new Repair(0, 1, new double[] {0.25, 0.25}, why);
    Repair tooShort = new Repair(0, 1, new double[] {0.25}, why);
    assertThatCode(() -> StageContract.assertRebuilt(side, List.of(whole), out))
        .doesNotThrowAnyException();
    broken(() -> StageContract.assertRebuilt(side, List.of(tooShort), out));
    broken(() -> StageContract.assertRebuilt(side, List.of(), out));
  }

  @Test
  void neutralSettingsThatActAreFound() {
    broken(() -> signal((w, c, i) -> w.samples()[c][i] / 2).neutralSettingsReturnTheInput(FORMAT));
    broken(() -> mender(r -> r).neutralSettingsReturnTheInput(FORMAT));
    Stage honestlyNot = new Signal(false, () -> each((w, c, i) -> w.samples()[c][i]));
    broken(() -> of(honestlyNot, honestlyNot).neutralSettingsReturnTheInput(FORMAT));
  }

  @Test
  void soundInSilenceIsFound() {
    broken(() -> signal((w, c, i) -> w.samples()[c][i] + 1e-12).silenceStaysSilent(FORMAT));
  }

  @Test
  void divisionByTheLevelIsFoundAtTheEdges() {
    broken(
        () ->
            signal(
                    (w, c, i) ->
                        w.samples()[c][i]
                            / Arrays.stream(w.samples()[c], 0, 1).map(Math::abs).sum())
                .edges(FORMAT));
  }

  @Test
  void aSideTooShortForTheStageIsFoundAtTheEdges() {
    SignalStage.Worker worker =
        (w, out) -> {
          if (w.sideFrames() == 2) {
            throw new IndexOutOfBoundsException("needs three frames");
          }
          each((v, c, i) -> v.samples()[c][i] / 2).treat(w, out);
        };
    broken(() -> signal(() -> worker).edges(FORMAT));
  }

  @Test
  void aDeadChannelThatHearsTheOtherIsFoundAtTheEdges() {
    broken(() -> signal((w, c, i) -> w.samples()[c][i] + w.samples()[0][i] / 8).edges(FORMAT));
  }

  @Test
  void rectifyingIsFoundBySymmetry() {
    broken(
        () -> signal((w, c, i) -> Math.max(-0.1, w.samples()[c][i])).polarityDoesNotMatter(FORMAT));
  }

  @Test
  void absoluteThresholdsAreFoundBySymmetry() {
    broken(() -> mender(r -> r).levelDoesNotMatter(FORMAT));
    broken(() -> signal((w, c, i) -> Math.min(0.1, w.samples()[c][i])).levelDoesNotMatter(FORMAT));
  }

  @Test
  void channelsTreatedUnlikeAreFoundBySymmetry() {
    broken(() -> signal((w, c, i) -> w.samples()[c][i] / (2 + c)).channelsMayBeSwapped(FORMAT));
  }

  private static Repair with(Repair r, long start, double[] removed) {
    return new Repair(r.channel(), start, removed, r.evidence());
  }
}
