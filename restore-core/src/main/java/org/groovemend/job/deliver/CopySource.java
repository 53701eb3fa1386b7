package org.groovemend.job.deliver;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.SideChain;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.CopyWish;
import org.groovemend.ledger.Ledger;
import org.groovemend.playback.CurveStage;
import org.groovemend.resample.PositionMap;
import org.groovemend.resample.Resampled;
import org.groovemend.resample.SampleSink;
import org.groovemend.speed.TimeMap;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageId;

/**
 * What a copy is made from: the clean copy for a service copy, the transfer through its curve for
 * an objective one; then time and rate are changed. All in doubles: nothing is rounded here.
 */
final class CopySource implements Closeable {

  private final SideReader file;
  private final Resampled heard;
  private final AudioFormat format;
  private final PositionMap map;

  private CopySource(SideReader file, Resampled heard, PositionMap map, AudioFormat format) {
    this.file = file;
    this.heard = heard;
    this.map = map;
    this.format = format;
  }

  static CopySource open(DeliverySide side, CopyWish wish) throws IOException {
    boolean restored = wish.kind() == CopyKind.SERVICE;
    boolean asItIs = wish.kind() == CopyKind.PRESERVATION;
    TimeMap speed = asItIs ? TimeMap.of(1) : side.asked().speed();
    Path path = restored ? side.cleanCopy() : side.asked().transfer();
    SideReader file = SideFiles.open(path);
    boolean opened = false;
    try {
      List<Stage> stages =
          restored || asItIs || side.curve() == null
              ? List.of()
              : List.of(new CurveStage(side.curve()));
      RangeReader sound = new SideChain(stages).reader(file);
      if (restored && side.joined() && file.format().channels() == 2) {
        sound = new OneOfTwo(sound);
      }
      AudioFormat own = sound.format();
      int rate = wish.rateHz() == 0 ? own.sampleRateHz() : wish.rateHz();
      // a map may keep what it worked out last, so each use has its own
      PositionMap map = speed.positions(own.sampleRateHz(), sound.frames(), rate);
      Resampled heard =
          new Resampled(sound, speed.positions(own.sampleRateHz(), sound.frames(), rate), rate);
      opened = true;
      return new CopySource(
          file,
          heard,
          map,
          asItIs ? own : format(own, wish, rate, own.channels(), speed.neutral()));
    } finally {
      if (!opened) {
        file.close();
      }
    }
  }

  /** Shape of the copy; significant bits fewer than the container's stay only where time does. */
  static AudioFormat format(
      AudioFormat own, CopyWish wish, int rate, int channels, boolean sameTime) {
    if (wish.depth() != null) {
      return wish.depth().format(rate, channels);
    }
    if (own.coding() == SampleCoding.FLOAT) {
      return AudioFormat.ieeeFloat(rate, channels, own.containerBits());
    }
    boolean untouched =
        wish.kind() == CopyKind.SERVICE
            && sameTime
            && rate == own.sampleRateHz()
            && wish.gainDb() == 0
            && wish.loudness() == null;
    return new AudioFormat(
        rate,
        channels,
        SampleCoding.PCM,
        own.containerBits(),
        untouched ? own.significantBits() : own.containerBits());
  }

  /** True if the treatment asks for the walls to be joined, or the ledger says that they were. */
  static boolean joins(Recipe.Side side) throws IOException {
    return side.ledger() == null
        ? side.treatment().has(StageId.MONO)
        : Ledger.open(side.ledger()).header().stages().stream()
            .anyMatch(stage -> stage.name().equals(StageId.MONO.key()));
  }

  SideReader file() {
    return file;
  }

  /** Of the copy. */
  AudioFormat format() {
    return format;
  }

  long frames() {
    return heard.frames();
  }

  /** The frame of the copy where a frame of what it is made from is heard. */
  long frameOf(long sourceFrame) {
    return Math.min(frames(), map.firstFrom(sourceFrame));
  }

  void forEach(Crew crew, SampleSink sink) throws IOException {
    heard.forEach(crew, sink);
  }

  @Override
  public void close() throws IOException {
    file.close();
  }

  /** One channel of two that hold the same, as the stage mono leaves them. */
  private static final class OneOfTwo implements RangeReader {
    private final RangeReader both;
    private double[][] samples = new double[2][0];

    OneOfTwo(RangeReader both) {
      this.both = both;
    }

    @Override
    public AudioFormat format() {
      AudioFormat two = both.format();
      return new AudioFormat(
          two.sampleRateHz(), 1, two.coding(), two.containerBits(), two.significantBits());
    }

    @Override
    public long frames() {
      return both.frames();
    }

    @Override
    public void read(long firstFrame, int count, double[][] into) throws IOException {
      if (samples[0].length < count) {
        samples = new double[2][count];
      }
      both.read(firstFrame, count, samples);
      int different = Arrays.mismatch(samples[0], 0, count, samples[1], 0, count);
      if (different >= 0) {
        throw new IllegalStateException(
            "the walls were joined, but the channels differ at frame " + (firstFrame + different));
      }
      System.arraycopy(samples[0], 0, into[0], 0, count);
    }
  }
}
