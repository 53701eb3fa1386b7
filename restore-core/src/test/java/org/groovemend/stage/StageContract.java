package org.groovemend.stage;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.Words;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The laws every stage keeps, run through the chain. The test of a stage extends this and says how
 * the stage is made.
 *
 * <p>Most laws run on sides of 64-bit floats, where the chain neither dithers nor rounds: what
 * comes out is what the stage did, to the last bit.
 */
public abstract class StageContract {

  private static final int SPARE = 4001;

  /**
   * The stage with settings that do something, its facts taken from {@code side}; the first quarter
   * is bare groove.
   */
  protected abstract Stage stage(ContractSide side, long bareFrames) throws IOException;

  /** The stage with settings that do nothing. */
  protected abstract Stage neutral(ContractSide side, long bareFrames) throws IOException;

  static Stream<AudioFormat> formats() {
    return Stream.of(AudioFormat.ieeeFloat(44_100, 2, 64), AudioFormat.ieeeFloat(96_000, 1, 64));
  }

  /** What came out. */
  private record Outcome(double[][] samples, List<Repair> repairs, long clipped) {}

  @ParameterizedTest
  @MethodSource("formats")
  void repeatable(AudioFormat format) throws IOException {
    ContractSide side = worn(format, 1);
    Stage stage = stage(side);
    Outcome first = run(stage, side, Crew.alone());
    run(stage, worn(format, 2), Crew.alone());
    assertSame(run(stage, side, Crew.alone()), first);
    assertThat(Arrays.deepEquals(first.samples(), side.samples()))
        .as("the stage did nothing")
        .isFalse();
  }

  @ParameterizedTest
  @MethodSource("formats")
  void handsDoNotMatter(AudioFormat format) throws IOException {
    ContractSide side = worn(format, 3);
    Stage stage = stage(side);
    Outcome alone = run(stage, side, Crew.alone());
    ExecutorService pool = Executors.newFixedThreadPool(3);
    try {
      for (int hands : new int[] {1, 2, 8}) {
        assertSame(run(stage, side, new Crew(pool, hands)), alone);
      }
    } finally {
      pool.shutdownNow();
    }
  }

  /**
   * Frames out are frames in, and of all shifts up to eight frames none fits the input better than
   * no shift.
   */
  @ParameterizedTest
  @MethodSource("formats")
  void aligned(AudioFormat format) throws IOException {
    ContractSide side = worn(format, 4);
    double[][] in = side.samples();
    double[][] out = run(stage(side), side, Crew.alone()).samples();
    for (int c = 0; c < in.length; c++) {
      assertThat(out[c]).hasSameSizeAs(in[c]);
      int best = -8;
      for (int lag = -8; lag <= 8; lag++) {
        best = distance(in[c], out[c], lag) < distance(in[c], out[c], best) ? lag : best;
      }
      assertThat(best).as("shift").isZero();
    }
  }

  /**
   * Outside its repairs a repair stage changes nothing, within each of them something, and it tells
   * them in order.
   */
  @ParameterizedTest
  @MethodSource("formats")
  void honest(AudioFormat format) throws IOException {
    ContractSide side = worn(format, 5);
    Stage stage = stage(side);
    double[][] in = side.samples();
    Outcome outcome = run(stage, side, Crew.alone());
    if (stage instanceof SignalStage) {
      assertThat(outcome.repairs()).isEmpty();
    } else {
      double[][] expected = side.samples();
      Repair last = null;
      for (Repair r : outcome.repairs()) {
        assertThat(r.removed()).isNotEmpty();
        assertThat(r.removed()[r.removed().length - 1]).isNotZero();
        boolean changed = false;
        for (int i = 0; i < r.removed().length; i++) {
          int at = (int) r.start() + i;
          expected[r.channel()][at] -= r.removed()[i];
          changed |= in[r.channel()][at] != outcome.samples()[r.channel()][at];
        }
        assertThat(changed).as("%s changes a sample", r).isTrue();
        if (last != null) {
          assertThat(r.start()).as("order").isGreaterThanOrEqualTo(last.start());
          assertThat(r.start() > last.start() || r.channel() > last.channel()).as("order").isTrue();
        }
        last = r;
      }
      assertBits(outcome.samples(), expected);
    }
    assertWindowsAreOnlyRead(stage, side);
  }

  /**
   * As the job does it: words put back where repairs were logged, or restored plus removed, are the
   * original.
   */
  @ParameterizedTest
  @MethodSource("formats")
  void reversible(AudioFormat format) throws IOException {
    AudioFormat pcm = AudioFormat.pcm(format.sampleRateHz(), format.channels(), 24);
    ContractSide side = ContractSide.of(pcm, worn(format, 6).samples());
    Stage stage = stage(side);
    List<Repair> repairs = new ArrayList<>();
    long[][] out = new long[pcm.channels()][(int) side.frames()];
    words(stage, side, Crew.alone(), repairs, out);
    if (stage instanceof RepairStage) {
      assertRebuilt(side, repairs, out);
      return;
    }
    for (int c = 0; c < out.length; c++) {
      long[] original = side.words()[c];
      for (int i = 0; i < original.length; i++) {
        long removed = Words.minus(original[i], out[c][i], 24);
        if (Words.signExtend(out[c][i], 24) != out[c][i]
            || Words.plus(out[c][i], removed, 24) != original[i]) {
          throw new AssertionError(
              "frame " + i + ": " + out[c][i] + " plus " + removed + " is not " + original[i]);
        }
      }
    }
  }

  /** The words the side has where repairs were logged, put back, give the side. */
  static void assertRebuilt(ContractSide side, List<Repair> logged, long[][] out) {
    for (int c = 0; c < out.length; c++) {
      long[] back = out[c].clone();
      for (Repair r : logged) {
        if (r.channel() == c) {
          int start = (int) r.start();
          System.arraycopy(side.words()[c], start, back, start, r.removed().length);
        }
      }
      assertThat(Arrays.mismatch(back, side.words()[c]))
          .as("first frame not rebuilt")
          .isEqualTo(-1);
    }
  }

  /** Left out of the chain, and rightly: its worker, asked nonetheless, changes no bit. */
  @ParameterizedTest
  @MethodSource("formats")
  void neutralSettingsReturnTheInput(AudioFormat format) throws IOException {
    ContractSide side = worn(format, 7);
    assertThat(stage(side).neutral()).isFalse();
    Stage stage = neutral(side, bare(side));
    assertThat(stage.neutral()).isTrue();
    assertThat(new SideChain(List.of(stage)).stages()).isEmpty();
    assertBits(run(stage, side, Crew.alone()).samples(), side.samples());
    Segmentation cut = stage.segmentation(format);
    for (long start = 0; start < side.frames(); start += cut.segmentFrames()) {
      SegmentWindow w = window(side, cut, start);
      if (stage instanceof RepairStage repair) {
        assertThat(repair.open(format).repair(w)).isEmpty();
      } else {
        double[][] out = new double[w.channels()][w.endIndex() - w.startIndex()];
        ((SignalStage) stage).open(format).treat(w, out);
        for (int c = 0; c < out.length; c++) {
          assertThat(
                  Arrays.equals(
                      out[c], Arrays.copyOfRange(w.samples()[c], w.startIndex(), w.endIndex())))
              .isTrue();
        }
      }
    }
  }

  @ParameterizedTest
  @MethodSource("formats")
  void silenceStaysSilent(AudioFormat format) throws IOException {
    Stage stage = stage(worn(format, 8));
    int frames = stage.segmentation(format).segmentFrames() + SPARE;
    Outcome outcome =
        run(stage, ContractSide.of(format, new double[format.channels()][frames]), Crew.alone());
    assertThat(outcome.repairs()).isEmpty();
    for (double[] channel : outcome.samples()) {
      assertThat(Arrays.stream(channel).allMatch(v -> v == 0)).as("silence").isTrue();
    }
  }

  @ParameterizedTest
  @MethodSource("formats")
  void edges(AudioFormat format) throws IOException {
    ContractSide side = worn(format, 9);
    Stage stage = stage(side);
    Segmentation cut = stage.segmentation(format);
    double[][] x = side.samples();
    int music = (int) bare(side);
    List<Integer> lengths = new ArrayList<>(List.of(0, 1, 2));
    for (int context : new int[] {cut.contextBefore(), cut.contextAfter(), cut.segmentFrames()}) {
      lengths.addAll(List.of(Math.max(0, context - 1), context, context + 1));
    }
    for (int n : lengths) {
      int to = Math.min(x[0].length, music + n);
      assertFinite(stage, format, n, cut(x, to - n, to));
    }
    int n = Math.min(30_000, x[0].length);
    Random random = new Random(10);
    assertFinite(stage, format, "constant", filled(format, n, i -> 0.5));
    assertFinite(stage, format, "square", filled(format, n, i -> (int) i / 50 % 2 == 0 ? 1 : -1));
    assertFinite(stage, format, "first frame", filled(format, n, i -> i == 0 ? 1 : 0));
    assertFinite(stage, format, "last frame", filled(format, n, i -> i == n - 1 ? 1 : 0));
    assertFinite(
        stage, format, "one LSB", filled(format, n, i -> Math.scalb(random.nextInt(3) - 1, -15)));
    assertFinite(
        stage,
        format,
        "smallest",
        filled(format, n, i -> (random.nextInt(3) - 1) * Double.MIN_VALUE));
    double[][] dead = cut(x, music, Math.min(x[0].length, music + n));
    Arrays.fill(dead[dead.length - 1], 0);
    double[][] out = assertFinite(stage, format, "dead channel", dead);
    assertThat(Arrays.stream(out[out.length - 1]).allMatch(v -> v == 0))
        .as("dead stays dead")
        .isEqualTo(deadStaysDead());
  }

  /** False only for a stage whose purpose is to give every channel the same. */
  protected boolean deadStaysDead() {
    return true;
  }

  @ParameterizedTest
  @MethodSource("formats")
  void polarityDoesNotMatter(AudioFormat format) throws IOException {
    scaled(format, -1);
  }

  @ParameterizedTest
  @MethodSource("formats")
  void levelDoesNotMatter(AudioFormat format) throws IOException {
    scaled(format, 0.125);
  }

  @ParameterizedTest
  @MethodSource("formats")
  void channelsMayBeSwapped(AudioFormat format) throws IOException {
    ContractSide side = worn(format, 12);
    Outcome straight = run(stage(side), side, Crew.alone());
    double[][] x = side.samples();
    List<double[]> reversed = new ArrayList<>(List.of(x));
    java.util.Collections.reverse(reversed);
    ContractSide swapped = ContractSide.of(format, reversed.toArray(double[][]::new));
    Outcome crossed = run(stage(swapped), swapped, Crew.alone());
    int last = x.length - 1;
    for (int c = 0; c <= last; c++) {
      int from = c;
      assertThat(decisions(crossed, last - c)).isEqualTo(decisions(straight, c));
      assertThat(Arrays.equals(crossed.samples()[last - from], straight.samples()[from])).isTrue();
    }
  }

  /**
   * Gain by a power of two is exact, so decisions must be the same and the output exactly so much
   * larger.
   */
  private void scaled(AudioFormat format, double gain) throws IOException {
    ContractSide side = worn(format, 11);
    Outcome plain = run(stage(side), side, Crew.alone());
    ContractSide other = ContractSide.of(format, times(side.samples(), gain));
    Outcome loud = run(stage(other), other, Crew.alone());
    for (int c = 0; c < format.channels(); c++) {
      assertThat(decisions(loud, c)).isEqualTo(decisions(plain, c));
    }
    double[][] expected = times(plain.samples(), gain);
    for (int c = 0; c < expected.length; c++) {
      int at = Arrays.mismatch(expected[c], loud.samples()[c]);
      assertThat(at).as("first frame that differs").isEqualTo(-1);
    }
  }

  private static List<List<Number>> decisions(Outcome outcome, int channel) {
    return outcome.repairs().stream()
        .filter(r -> r.channel() == channel)
        .map(
            r ->
                List.<Number>of(
                    r.start(),
                    r.evidence().gapStart(),
                    r.evidence().gapFrames(),
                    r.evidence().statistic()))
        .toList();
  }

  private static void assertWindowsAreOnlyRead(Stage stage, ContractSide side) {
    SegmentWindow w = window(side, stage.segmentation(side.format()), 0);
    double[][] before = cut(w.samples(), 0, w.length());
    if (stage instanceof RepairStage repair) {
      repair.open(side.format()).repair(w);
    } else {
      ((SignalStage) stage).open(side.format()).treat(w, new double[w.channels()][w.endIndex()]);
    }
    assertBits(w.samples(), before);
  }

  private static SegmentWindow window(ContractSide side, Segmentation cut, long start) {
    long end = Math.min(side.frames(), start + cut.segmentFrames());
    long first = Math.max(0, start - cut.contextBefore());
    int length = (int) (Math.min(side.frames(), end + cut.contextAfter()) - first);
    double[][] x = cut(side.samples(), (int) first, (int) first + length);
    return new SegmentWindow(x, first, length, start, end, side.frames());
  }

  private double[][] assertFinite(Stage stage, AudioFormat format, Object what, double[][] x)
      throws IOException {
    Outcome outcome;
    try {
      outcome = run(stage, ContractSide.of(format, x), Crew.alone());
    } catch (RuntimeException e) {
      throw new AssertionError("edge case " + what + " of " + format + ": " + e, e);
    }
    for (double[] channel : outcome.samples()) {
      assertThat(Arrays.stream(channel).allMatch(Double::isFinite)).as("%s", what).isTrue();
    }
    return outcome.samples();
  }

  private static double[][] filled(AudioFormat format, int n, DoubleUnaryOperator value) {
    double[][] x = new double[format.channels()][n];
    for (double[] channel : x) {
      Arrays.setAll(channel, value::applyAsDouble);
    }
    return x;
  }

  private static double[][] cut(double[][] x, int from, int to) {
    return Arrays.stream(x).map(c -> Arrays.copyOfRange(c, from, to)).toArray(double[][]::new);
  }

  private static double[][] times(double[][] x, double gain) {
    return Arrays.stream(x)
        .map(c -> Arrays.stream(c).map(v -> v * gain).toArray())
        .toArray(double[][]::new);
  }

  private static double distance(double[] in, double[] out, int lag) {
    double sum = 0;
    for (int i = 8; i < in.length - 8; i++) {
      double d = in[i] - out[i + lag];
      sum += d * d;
    }
    return sum;
  }

  /** Two and a bit segments, so that there are borders and a short last segment. */
  private ContractSide worn(AudioFormat format, long seed) throws IOException {
    // the cut depends on settings and rate only; any side that an analyser accepts tells it
    AudioFormat plain = AudioFormat.ieeeFloat(format.sampleRateHz(), format.channels(), 64);
    ContractSide any = ContractSide.of(plain, ContractSide.worn(plain, 120_000, 1 << 17, 1));
    int segment = stage(any).segmentation(plain).segmentFrames();
    int frames = Math.max(40_000, 2 * segment + SPARE);
    return ContractSide.of(format, wornSamples(format, frames, segment, seed));
  }

  /** The samples of a worn side; a stage whose defect is not in it adds its own. */
  protected double[][] wornSamples(AudioFormat format, int frames, int segmentFrames, long seed) {
    return ContractSide.worn(format, frames, segmentFrames, seed);
  }

  private static long bare(ContractSide side) {
    return (long) (ContractSide.BARE * side.frames());
  }

  private Stage stage(ContractSide side) throws IOException {
    return stage(side, bare(side));
  }

  private static Outcome run(Stage stage, ContractSide side, Crew crew) throws IOException {
    List<Repair> repairs = new ArrayList<>();
    long[][] words = new long[side.format().channels()][(int) side.frames()];
    long clipped = words(stage, side, crew, repairs, words);
    return new Outcome(new ContractSide(side.format(), words).samples(), repairs, clipped);
  }

  private static long words(
      Stage stage, ContractSide side, Crew crew, List<Repair> repairs, long[][] into)
      throws IOException {
    int[] at = {0};
    long clipped =
        new SideChain(List.of(stage))
            .run(
                side,
                crew,
                17,
                (id, repair) -> repairs.add(repair),
                (block, offset, count) -> {
                  for (int c = 0; c < into.length; c++) {
                    System.arraycopy(block[c], offset, into[c], at[0], count);
                  }
                  at[0] += count;
                },
                Progress.SILENT);
    assertThat(at[0]).as("frames out").isEqualTo((int) side.frames());
    return clipped;
  }

  private static void assertSame(Outcome actual, Outcome expected) {
    assertBits(actual.samples(), expected.samples());
    assertThat(actual.repairs()).hasSameSizeAs(expected.repairs());
    for (int i = 0; i < expected.repairs().size(); i++) {
      Repair a = actual.repairs().get(i);
      Repair b = expected.repairs().get(i);
      assertThat(a.channel()).isEqualTo(b.channel());
      assertThat(a.start()).isEqualTo(b.start());
      assertThat(a.evidence()).isEqualTo(b.evidence());
      assertThat(Arrays.equals(a.removed(), b.removed())).isTrue();
    }
  }

  private static void assertBits(double[][] actual, double[][] expected) {
    for (int c = 0; c < expected.length; c++) {
      assertThat(Arrays.mismatch(actual[c], expected[c]))
          .as("first frame of channel %d that differs", c)
          .isEqualTo(-1);
    }
  }
}
