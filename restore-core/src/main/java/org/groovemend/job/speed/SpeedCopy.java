package org.groovemend.job.speed;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.audio.flac.FlacWriter;
import org.groovemend.chain.Progress;
import org.groovemend.chain.Quantiser;
import org.groovemend.chain.SideChain;
import org.groovemend.chain.WordSink;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.side.HashUnderWay;
import org.groovemend.job.side.QuantisedWords;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.SpeedChunks;
import org.groovemend.ledger.Sha256;
import org.groovemend.resample.Resampled;
import org.groovemend.speed.DriftNode;
import org.groovemend.speed.TimeMap;
import org.groovemend.stage.Crew;

/**
 * Writes a copy that runs at another speed, and beside it what was done. Neither the transfer nor a
 * clean copy of it is touched: they keep their frames.
 */
public final class SpeedCopy {
  private SpeedCopy() {}

  /**
   * What is asked.
   *
   * @param side a transfer or its clean copy
   * @param map what is done to its time
   * @param basis where the map comes from, a sentence for people
   * @param out the copy, its name ending in .wav or .flac
   * @param rateHz rate of the copy, 0 for that of the side
   * @param ditherSeed for integer words
   * @param replace whether copy and record may replace files
   * @param toolVersion goes into the record
   * @param now goes into the record
   */
  public record Request(
      Path side,
      TimeMap map,
      String basis,
      Path out,
      int rateHz,
      long ditherSeed,
      boolean replace,
      String toolVersion,
      Instant now) {}

  /**
   * What was written.
   *
   * @param copy the sound
   * @param record what was done, JSON
   * @param frames of the copy
   * @param format of it
   * @param clipped samples that had to be set to the end of the range
   * @param leftOut chunks of the original that are not in the copy
   */
  public record Outcome(
      Path copy,
      Path record,
      long frames,
      AudioFormat format,
      long clipped,
      List<String> leftOut) {}

  /** The record's name: NAME.speed.json beside NAME.wav. */
  public static String recordName(Path copy) {
    String name = FilePath.name(copy);
    return name.substring(0, name.lastIndexOf('.')) + ".speed.json";
  }

  /**
   * Both files appear, or neither.
   *
   * @throws RequestRefusedException if there is nothing to do or the copy cannot be as it is asked
   * @throws org.groovemend.audio.InputRejectedException if the side cannot be taken
   * @throws org.groovemend.delivery.OutputExistsException if one is there already
   */
  public static Outcome run(Request request, Crew crew, Progress progress) throws IOException {
    Path out = request.out().toAbsolutePath();
    boolean flac = isFlac(out);
    try (SideReader side = SideFiles.open(request.side())) {
      int rate = rate(request, side);
      Resampled heard =
          new Resampled(
              new SideChain(List.of()).reader(side),
              request.map().positions(side.format().sampleRateHz(), side.frames(), rate),
              rate);
      AudioFormat format = heard.format();
      refuseWhatFlacLacks(flac, format);
      List<String> names = List.of(recordName(out), FilePath.name(out));
      try (OutputSet outputs =
              OutputSet.open(
                  FilePath.folder(out), names, request.replace(), List.of(request.side()));
          HashUnderWay hash = new HashUnderWay(request.side(), crew)) {
        Path file = outputs.temporary(names.get(1));
        Quantiser quantiser = new Quantiser(format, request.ditherSeed());
        List<String> leftOut = List.of();
        if (flac) {
          try (FlacWriter writer =
              new FlacWriter(file, format, heard.frames(), crew.executor(), crew.hands())) {
            pass(heard, quantiser, crew, writer::write, progress);
          }
        } else {
          SpeedChunks chunks =
              SpeedChunks.of(
                  side,
                  format,
                  "Copy at another speed of " + side.path().getFileName(),
                  what(request.map()) + "; " + names.get(0),
                  request.toolVersion(),
                  request.now());
          leftOut = chunks.leftOut();
          try (WavWriter writer =
              WavWriter.create(file, format, heard.frames(), chunks.chunks(), null)) {
            pass(heard, quantiser, crew, writer::write, progress);
          }
        }
        Outcome outcome =
            new Outcome(
                request.out(),
                out.resolveSibling(names.get(0)),
                heard.frames(),
                format,
                quantiser.clipped(),
                leftOut);
        byte[] record =
            SpeedRecord.json(
                    request,
                    side,
                    outcome,
                    new SpeedRecord.Identity(
                        FilePath.name(request.side()), Files.size(request.side()), hash.digits()),
                    new SpeedRecord.Identity(names.get(1), Files.size(file), Sha256.of(file)))
                .getBytes(StandardCharsets.UTF_8);
        try (OutputStream stream = outputs.create(names.get(0))) {
          stream.write(record);
        }
        outputs.commit();
        return outcome;
      }
    }
  }

  /** Whether a copy is to be FLAC, by its name; refuses other names than .flac and .wav. */
  public static boolean isFlac(Path out) {
    String name = out.getFileName() == null ? "" : FilePath.name(out);
    String lower = name.toLowerCase(Locale.ROOT);
    if (lower.length() > 5 && lower.endsWith(".flac")) {
      return true;
    }
    if (lower.length() > 4 && lower.endsWith(".wav")) {
      return false;
    }
    throw new RequestRefusedException(
        "\"" + name + "\" ends neither in .wav nor in .flac; give the copy one of these names");
  }

  private static int rate(Request request, SideReader side) {
    int rate = request.rateHz() == 0 ? side.format().sampleRateHz() : request.rateHz();
    if (rate < AudioFormat.MIN_RATE_HZ || rate > AudioFormat.MAX_RATE_HZ) {
      throw new RequestRefusedException(
          "a rate of "
              + rate
              + " Hz is outside "
              + AudioFormat.MIN_RATE_HZ
              + " to "
              + AudioFormat.MAX_RATE_HZ
              + "; give one such as 44100, 48000 or 96000");
    }
    if (request.map().neutral() && rate == side.format().sampleRateHz()) {
      throw new RequestRefusedException(
          "nothing is to be changed: the factor is 1 and the rate that of the side; nothing was written");
    }
    requireDriftWithin(request.map(), side);
    if (side.frames() == 0) {
      throw new RequestRefusedException("the side has no samples; there is nothing to write");
    }
    return rate;
  }

  /** Refuses factors stated for moments that the side does not have. */
  public static void requireDriftWithin(TimeMap map, SideReader side) {
    List<DriftNode> drift = map.drift();
    double seconds = side.format().seconds(side.frames());
    if (!drift.isEmpty() && drift.get(drift.size() - 1).seconds() > seconds) {
      throw new RequestRefusedException(
          String.format(
              Locale.ROOT,
              "drift is stated at %s s, but the side ends at %.3f s; nothing was written",
              drift.get(drift.size() - 1).seconds(),
              seconds));
    }
  }

  private static void refuseWhatFlacLacks(boolean flac, AudioFormat format) {
    if (flac && format.coding() != SampleCoding.PCM) {
      throw new RequestRefusedException(
          "FLAC cannot hold float samples; give the copy a name that ends in .wav");
    }
  }

  /** In a few words. */
  public static String what(TimeMap map) {
    return String.format(
        Locale.ROOT,
        "speed x %.6f%s%s",
        map.factor(),
        map.drift().isEmpty() ? "" : " and drift",
        map.wow() == null ? "" : "; wow taken out");
  }

  private static void pass(
      Resampled heard, Quantiser quantiser, Crew crew, WordSink sink, Progress progress)
      throws IOException {
    QuantisedWords words = new QuantisedWords(quantiser, heard.format().channels(), sink);
    heard.forEach(
        crew,
        (at, samples, count) -> {
          words.accept(at, samples, count);
          progress.at("changing the speed", at + count, heard.frames());
        });
  }
}
