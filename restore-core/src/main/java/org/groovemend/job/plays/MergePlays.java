package org.groovemend.job.plays;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.audio.flac.FlacWriter;
import org.groovemend.chain.Progress;
import org.groovemend.chain.Quantiser;
import org.groovemend.chain.WordSink;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.side.QuantisedWords;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.SpeedChunks;
import org.groovemend.job.speed.SpeedCopy;
import org.groovemend.ledger.Sha256;
import org.groovemend.plays.Merge;
import org.groovemend.plays.Place;
import org.groovemend.plays.PlayFinding;
import org.groovemend.sealed.SealedDocument;
import org.groovemend.stage.Crew;

/**
 * Makes one transfer of several plays or copies of a side, and a record of what came from where.
 */
public final class MergePlays {

  private MergePlays() {}

  /**
   * What is asked.
   *
   * @param plays two or more; the first is the reference: the output has its time, level and format
   * @param out the merged transfer, its name ending in .wav or .flac
   * @param ditherSeed for integer words
   * @param replace whether output and record may replace files
   * @param toolVersion goes into the record
   * @param now goes into the record
   */
  public record Request(
      List<Path> plays,
      Path out,
      long ditherSeed,
      boolean replace,
      String toolVersion,
      Instant now) {
    public Request {
      plays = List.copyOf(plays);
    }
  }

  /**
   * What was written.
   *
   * @param out the sound
   * @param record what came from where, sealed JSON
   * @param frames of the sound
   * @param format of it
   * @param bytes of the file
   * @param clipped samples that had to be set to the end of the range
   * @param leftOut chunks of the reference that are not in the output
   * @param names of the plays
   * @param alignments of the plays, the reference's first
   * @param replaced by play: places where its damage gave way to another play's sound
   * @param discharges of these, those that look like electric discharges
   * @param everywhere places damaged in all plays, left for a restoration
   * @param unsure places where it is not sure which play is damaged
   */
  public record Outcome(
      Path out,
      Path record,
      long frames,
      AudioFormat format,
      long bytes,
      long clipped,
      List<String> leftOut,
      List<String> names,
      List<PlayFinding> alignments,
      List<Long> replaced,
      long discharges,
      long everywhere,
      long unsure) {}

  /** The record's name: NAME.merge.json beside NAME.wav. */
  public static String recordName(Path out) {
    String name = out.getFileName().toString();
    return name.substring(0, name.lastIndexOf('.')) + ".merge.json";
  }

  /**
   * Both files appear, or neither.
   *
   * @throws RequestRefusedException if these are not different files, or the output cannot be as it
   *     is asked
   * @throws org.groovemend.audio.InputRejectedException if one cannot be taken or is no play of the
   *     same performance
   * @throws org.groovemend.delivery.OutputExistsException if output or record is there already
   */
  public static Outcome run(Request request, Crew crew, Progress progress) throws IOException {
    Path out = request.out().toAbsolutePath();
    boolean flac = SpeedCopy.isFlac(out);
    List<String> names = List.of(recordName(out), out.getFileName().toString());
    try (OutputSet outputs =
            OutputSet.open(out.getParent(), names, request.replace(), request.plays());
        OpenPlays plays = OpenPlays.open(request.plays(), crew, progress)) {
      SideReader reference = plays.sides().get(0);
      AudioFormat format = reference.format();
      if (flac && format.coding() != SampleCoding.PCM) {
        throw new RequestRefusedException(
            "FLAC cannot hold the float samples of "
                + plays.name(0)
                + "; give the output a name that ends in .wav");
      }
      Path file = outputs.temporary(names.get(1));
      Quantiser quantiser = new Quantiser(format, request.ditherSeed());
      List<String> leftOut = List.of();
      if (flac) {
        try (FlacWriter writer =
            new FlacWriter(file, format, reference.frames(), crew.executor(), crew.hands())) {
          pass(plays, quantiser, crew, writer::write, progress);
        }
      } else {
        SpeedChunks chunks =
            SpeedChunks.of(
                reference,
                format,
                "One transfer of " + plays.count() + " plays; " + names.get(0),
                "merged from " + plays.count() + " plays; " + names.get(0),
                request.toolVersion(),
                request.now());
        leftOut = chunks.leftOut();
        try (WavWriter writer =
            WavWriter.create(file, format, reference.frames(), chunks.chunks(), null)) {
          pass(plays, quantiser, crew, writer::write, progress);
        }
      }
      plays.requireUnchanged();
      Outcome outcome = outcome(plays, request, file, quantiser.clipped(), leftOut);
      try (OutputStream stream = outputs.create(names.get(0))) {
        stream.write(
            SealedDocument.of(MergeRecord.content(plays, request, outcome, Sha256.of(file)))
                .bytes());
      }
      outputs.commit();
      return outcome;
    }
  }

  private static Outcome outcome(
      OpenPlays plays, Request request, Path file, long clipped, List<String> leftOut)
      throws IOException {
    long[] counts = plays.survey().counts();
    List<Place> places = plays.survey().places();
    List<Long> replaced = new java.util.ArrayList<>();
    for (int p = 0; p < plays.count(); p++) {
      replaced.add(counts[p]);
    }
    return new Outcome(
        request.out(),
        request.out().resolveSibling(recordName(request.out())),
        plays.sides().get(0).frames(),
        plays.sides().get(0).format(),
        Files.size(file),
        clipped,
        leftOut,
        plays.sides().stream().map(s -> s.path().getFileName().toString()).toList(),
        plays.set().findings(),
        replaced,
        places.stream().filter(Place::brief).count(),
        counts[plays.count()],
        places.stream().filter(p -> !p.everywhere() && !p.sure()).count());
  }

  private static void pass(
      OpenPlays plays, Quantiser quantiser, Crew crew, WordSink sink, Progress progress)
      throws IOException {
    Merge.run(
        plays.survey(),
        crew,
        new QuantisedWords(quantiser, plays.set().channels(), sink),
        progress);
  }
}
