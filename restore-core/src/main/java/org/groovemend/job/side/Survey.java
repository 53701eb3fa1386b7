package org.groovemend.job.side;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.Words;
import org.groovemend.chain.Progress;
import org.groovemend.leadin.LeadInFinder;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.ledger.FileFacts;
import org.groovemend.measure.LevelMeter;
import org.groovemend.measure.LevelTrack;
import org.groovemend.measure.ProgrammeMeter;
import org.groovemend.measure.SideLevels;
import org.groovemend.report.Envelope;
import org.groovemend.report.EnvelopeBuilder;
import org.groovemend.report.Pictures;
import org.groovemend.stage.Crew;
import org.groovemend.transfer.BlockMeter;

/**
 * The first pass over a side: is every sample sound, what is the file, how loud, where is bare
 * groove.
 *
 * @param facts identity of the file
 * @param levels what it measures
 * @param leadIn the groove-only stretch, or why none was found
 * @param envelope its outline for pictures
 * @param track its level over time
 */
public record Survey(
    FileFacts facts, SideLevels levels, LeadInFinding leadIn, Envelope envelope, LevelTrack track) {

  static final int PICTURE_COLUMNS = Pictures.COLUMNS;
  private static final int BLOCK_FRAMES = 1 << 16;

  public static Survey of(SideReader side, Crew crew, Progress progress) throws IOException {
    return of(side, crew, progress, null, List.of());
  }

  /**
   * The same, and gives every sample to meters on the way.
   *
   * @param programmeOrNull still to be finished by the caller
   * @param meters likewise
   */
  public static Survey of(
      SideReader side,
      Crew crew,
      Progress progress,
      ProgrammeMeter programmeOrNull,
      List<BlockMeter> meters)
      throws IOException {
    long bytes = Files.size(side.path());
    FileTime modified = Files.getLastModifiedTime(side.path());
    Survey survey;
    try (HashUnderWay fileHash = new HashUnderWay(side.path(), crew)) {
      survey = of(side, bytes, fileHash, crew, progress, programmeOrNull, meters);
    }
    if (Files.size(side.path()) != bytes
        || !Files.getLastModifiedTime(side.path()).equals(modified)) {
      throw new InputRejectedException(
          side.path(),
          "while reading",
          "the file was changed by another program",
          "wait until it is complete and try again");
    }
    return survey;
  }

  private static Survey of(
      SideReader side,
      long bytes,
      HashUnderWay fileHash,
      Crew crew,
      Progress progress,
      ProgrammeMeter programmeOrNull,
      List<BlockMeter> meters)
      throws IOException {
    AudioFormat format = side.format();
    long frames = side.frames();
    SampleDigest digest = new SampleDigest(format);
    LevelMeter meter = new LevelMeter(format);
    LeadInFinder leadIn = new LeadInFinder(format, frames);
    EnvelopeBuilder envelope = new EnvelopeBuilder(format, frames, PICTURE_COLUMNS);
    LevelTrack track = new LevelTrack(format, frames);
    int channels = format.channels();
    Block[] blocks = {new Block(channels), new Block(channels)};
    blocks[0].fill(side, 0);
    List<Runnable> tasks = new ArrayList<>();
    for (long at = 0, n = 0; at < frames; at += BLOCK_FRAMES, n++) {
      Block here = blocks[(int) (n % 2)];
      Block next = blocks[(int) ((n + 1) % 2)];
      long[][] words = here.words;
      double[][] samples = here.samples;
      int count = here.count;
      long after = at + count;
      tasks.clear();
      // while this one is measured the next is read
      if (after < frames) {
        tasks.add(() -> next.fillUnchecked(side, after));
      }
      for (BlockMeter each : meters) {
        tasks.add(() -> each.accept(words, samples, count));
      }
      if (programmeOrNull != null) {
        tasks.add(() -> programmeOrNull.accept(samples, count));
      }
      tasks.add(
          () -> {
            digest.update(words, 0, count);
            track.accept(samples, count);
          });
      tasks.add(
          () -> {
            meter.accept(words, samples, count);
            envelope.accept(samples, 0, count);
          });
      tasks.add(() -> leadIn.accept(samples, count));
      try {
        crew.share(tasks);
      } catch (UncheckedIOException e) {
        throw e.getCause();
      }
      progress.at("surveying", after, frames);
    }
    FileFacts facts =
        new FileFacts(
            FilePath.name(side.path()),
            bytes,
            fileHash.digits(),
            digest.hex(),
            frames,
            format,
            side.container());
    return new Survey(facts, meter.finish(), leadIn.finish(), envelope.build(), track);
  }

  /** Some frames, as words and as doubles. */
  private static final class Block {
    final long[][] words;
    final double[][] samples;
    int count;

    Block(int channels) {
      words = new long[channels][BLOCK_FRAMES];
      samples = new double[channels][BLOCK_FRAMES];
    }

    void fill(SideReader side, long at) throws IOException {
      count = (int) Math.min(BLOCK_FRAMES, side.frames() - at);
      side.readWords(at, count, words, 0);
      for (int c = 0; c < words.length; c++) {
        Words.toDoubles(words[c], 0, samples[c], 0, count, side.format());
      }
    }

    void fillUnchecked(SideReader side, long at) {
      try {
        fill(side, at);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
