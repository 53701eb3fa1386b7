package org.groovemend.chain;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Semaphore;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SignalStage;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageId;

/** An ordered list of stages, ready to treat a side whole or in part. */
public final class SideChain {

  private static final int BLOCK_FRAMES = 1 << 16;

  private final List<Stage> stages;

  public SideChain(List<Stage> stages) {
    this.stages = stages.stream().filter(stage -> !stage.neutral()).toList();
  }

  /** The stages that do something, in order. */
  public List<Stage> stages() {
    return stages;
  }

  /** True if a stage may touch any sample. */
  public boolean wholeSignal() {
    return stages.stream().anyMatch(SignalStage.class::isInstance);
  }

  /** True if all channels come out the same. */
  public boolean joinsChannels() {
    return stages.stream()
        .anyMatch(stage -> stage instanceof SignalStage signal && signal.joinsChannels());
  }

  /**
   * Treats a whole side.
   *
   * @return samples that had to be set to the end of the range
   */
  public long run(
      WordSource side,
      Crew crew,
      long ditherSeed,
      RepairSink repairs,
      WordSink out,
      Progress progress)
      throws IOException {
    return run(side, crew, ditherSeed, repairs, Map.of(), out, progress);
  }

  /**
   * The same, with signal stages watched.
   *
   * @param watches by stage; called in order, on the calling thread
   */
  public long run(
      WordSource side,
      Crew crew,
      long ditherSeed,
      RepairSink repairs,
      Map<StageId, SignalWatch> watches,
      WordSink out,
      Progress progress)
      throws IOException {
    return run(side, crew, ditherSeed, repairs, null, watches, out, progress);
  }

  /**
   * The same with some repairs left out, as if they had not been made, though every stage finds
   * what it finds when all are made. What is left out is not put back but never taken away.
   *
   * @param repairs is told of every repair, made or left out
   * @param selection which are made; null for all
   * @throws IllegalStateException if a repair stage stands behind one that may touch any sample
   */
  public long run(
      WordSource side,
      Crew crew,
      long ditherSeed,
      RepairSink repairs,
      RepairSelection selection,
      Map<StageId, SignalWatch> watches,
      WordSink out,
      Progress progress)
      throws IOException {
    AudioFormat format = side.format();
    long frames = side.frames();
    Quantiser quantiser = new Quantiser(format, ditherSeed, joinsChannels());
    WordBlocks words = new WordBlocks(quantiser, format.channels(), out);
    BlockSink first =
        assemble(
            format,
            frames,
            crew,
            repairs,
            selection,
            watches,
            (start, samples, count) -> {
              words.accept(start, samples, count);
              progress.at("treating", start + count, frames);
            });
    feed(side, 0, frames, first);
    return quantiser.clipped();
  }

  /** The side as these stages leave it, for the analysers of the stages to come. */
  public RangeReader reader(WordSource side) {
    return TreatedRanges.of(side, stages);
  }

  /**
   * Lets a repair stage look at up to {@code segments} segments spread evenly over the side, as a
   * sample of what it would find.
   */
  public static RepairSample sample(RangeReader side, RepairStage stage, int segments)
      throws IOException {
    return RepairSample.take(side, stage, segments);
  }

  /**
   * The same, two segments at once, until there are enough repairs to tell their rate; what is
   * heard does not depend on the hands.
   *
   * @param enough repairs after which no more segments are looked at
   */
  public static RepairSample sample(
      RangeReader side, RepairStage stage, int segments, int enough, Crew crew) throws IOException {
    return RepairSample.take(side, stage, segments, enough, crew);
  }

  private BlockSink assemble(
      AudioFormat format,
      long frames,
      Crew crew,
      RepairSink repairs,
      RepairSelection selection,
      Map<StageId, SignalWatch> watches,
      BlockSink last) {
    Semaphore slots = new Semaphore(crew.hands());
    BlockSink next = last;
    KeptRepairs kept = null;
    int repairStages = (int) stages.stream().filter(RepairStage.class::isInstance).count();
    RepairSink[] sinks = new RepairSink[repairStages];
    for (int i = stages.size() - 1; i >= 0; i--) {
      Stage stage = stages.get(i);
      if (selection != null && i == repairStages - 1) {
        kept = new KeptRepairs(format.channels(), selection, next);
        next = kept;
        for (int k = 0; k < repairStages; k++) {
          sinks[k] = kept.ofNextStage(repairs);
        }
      }
      if (selection != null && stage instanceof RepairStage && i >= repairStages) {
        throw new IllegalStateException(
            "repairs cannot be left out before a stage that may touch any sample");
      }
      next =
          stage instanceof RepairStage repair
              ? new RepairRun(
                  repair, format, frames, crew, slots, kept == null ? repairs : sinks[i], next)
              : new SignalRun(
                  (SignalStage) stage,
                  format,
                  frames,
                  crew,
                  slots,
                  watches.get(stage.parameters().stage()),
                  next);
    }
    return kept == null ? next : kept.before(next);
  }

  private static void feed(WordSource side, long from, long to, BlockSink sink) throws IOException {
    int channels = side.format().channels();
    long[][] words = new long[channels][BLOCK_FRAMES];
    double[][] samples = new double[channels][BLOCK_FRAMES];
    for (long at = from; at < to; at += BLOCK_FRAMES) {
      int count = (int) Math.min(BLOCK_FRAMES, to - at);
      side.readWords(at, count, words, 0);
      for (int c = 0; c < channels; c++) {
        Words.toDoubles(words[c], 0, samples[c], 0, count, side.format());
      }
      sink.accept(at, samples, count);
    }
  }
}
