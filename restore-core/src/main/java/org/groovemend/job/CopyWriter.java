package org.groovemend.job;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.Words;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.chain.Progress;
import org.groovemend.chain.Quantiser;
import org.groovemend.deliverable.Container;
import org.groovemend.deliverable.CopyFile;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.CopyLevel;
import org.groovemend.deliverable.CopyMeter;
import org.groovemend.deliverable.CopyWish;
import org.groovemend.deliverable.GainPlan;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Sha256;
import org.groovemend.measure.Decibels;
import org.groovemend.resample.SampleSink;
import org.groovemend.stage.Crew;

/** Writes the copies of a delivery, and beside each its record. */
final class CopyWriter {

  /** Chunks of the original that give way to tags that are stated. */
  private static final Set<String> TAGS = Set.of("LIST", "id3 ", "ID3 ");

  private final DeliverRequest request;
  private final Path folder;
  private final Crew crew;
  private final Progress progress;
  private final List<String> remarks = new ArrayList<>();

  CopyWriter(DeliverRequest request, Path folder, Crew crew, Progress progress) {
    this.request = request;
    this.folder = folder;
    this.crew = crew;
    this.progress = progress;
  }

  /** What a person should know of the copies so far. */
  List<String> remarks() {
    return remarks;
  }

  /**
   * One copy with its record; a preservation copy lies there already.
   *
   * @throws RequestRefusedException if samples would have to be cut off at full scale
   */
  DeliverOutcome.Copy write(DeliverySide side, CopyWish wish, String name, GainPlan gain)
      throws IOException {
    Path path = folder.resolve(name);
    try (CopySource source = CopySource.open(side, wish)) {
      List<String> leftOut = new ArrayList<>();
      CopyLevel level;
      String samples = "";
      if (wish.kind() == CopyKind.PRESERVATION) {
        level = measured(source);
      } else {
        List<WavChunk> chunks =
            wish.container() == Container.WAV
                ? chunks(side, wish, source, gain, leftOut)
                : List.of();
        Pass pass = new Pass(name, source, gain);
        try (CopyFile file =
            CopyFile.create(
                path,
                wish.container(),
                source.format(),
                source.frames(),
                chunks,
                side.asked().tags(),
                crew)) {
          pass.to(file);
          source.forEach(crew, pass);
          pass.requireWhole();
        }
        level = pass.meter.finish();
        samples = pass.digest.hex();
        if (wish.loudness() != null) {
          remarks.add(name + ": " + gain.words());
        }
        if (!leftOut.isEmpty()) {
          remarks.add(
              name
                  + ": chunks that may count in frames were left out: "
                  + String.join(", ", leftOut));
        }
      }
      FileFacts file =
          wish.kind() == CopyKind.PRESERVATION
              ? named(side.original(), name)
              : new FileFacts(
                  name,
                  Files.size(path),
                  Sha256.of(path),
                  samples,
                  source.frames(),
                  source.format(),
                  wish.container().words());
      DeliverOutcome.Copy copy = new DeliverOutcome.Copy(file, wish.kind(), level, gain.gainDb());
      CopyRecord.write(request, folder, side, wish, copy, gain, leftOut);
      return copy;
    }
  }

  private static FileFacts named(FileFacts facts, String name) {
    return new FileFacts(
        name,
        facts.bytes(),
        facts.sha256(),
        facts.samplesSha256(),
        facts.frames(),
        facts.format(),
        facts.container());
  }

  private CopyLevel measured(CopySource source) throws IOException {
    CopyMeter meter = new CopyMeter();
    meter.begin(source.format().sampleRateHz(), source.format().channels());
    source.forEach(
        crew,
        (at, samples, count) -> {
          meter.accept(samples, count);
          progress.at("measuring", at + count, source.frames());
        });
    return meter.finish();
  }

  private List<WavChunk> chunks(
      DeliverySide side, CopyWish wish, CopySource source, GainPlan gain, List<String> leftOut)
      throws IOException {
    StringBuilder what = new StringBuilder(wish.kind().key()).append(" copy");
    if (wish.kind() == CopyKind.OBJECTIVE && side.curve() != null) {
      what.append("; curve").append(CurvePlan.doneInWords(side.curve()));
    }
    if (!side.asked().speed().neutral()) {
      what.append("; ").append(SpeedCopy.what(side.asked().speed()));
    }
    if (gain.gainDb() != 0) {
      what.append(String.format(Locale.ROOT, "; gain %+.2f dB", gain.gainDb()));
    }
    SpeedChunks chunks =
        SpeedChunks.of(
            source.file(),
            source.format(),
            wish.kind().words() + " of " + side.original().name(),
            what.toString(),
            request.toolVersion(),
            request.now());
    leftOut.addAll(chunks.leftOut());
    CopyLevel level = measured(source).withGain(gain.gainDb());
    return chunks.chunks().stream()
        .filter(chunk -> side.asked().tags().isEmpty() || !TAGS.contains(chunk.id()))
        .map(
            chunk ->
                chunk.id().equals(BroadcastExtension.CHUNK_ID)
                    ? WavChunk.of(chunk.id(), withLoudness(chunk.content(), level))
                    : chunk)
        .toList();
  }

  private static byte[] withLoudness(byte[] extension, CopyLevel level) {
    return BroadcastExtension.withLoudness(
        extension,
        level.loudness().integratedLufs(),
        level.loudness().rangeLu(),
        level.truePeakDbtp(),
        level.loudness().mostMomentaryLufs(),
        level.loudness().mostShortTermLufs());
  }

  /** Doubles to words, once, and measured as they then are. */
  private final class Pass implements SampleSink {
    final CopyMeter meter = new CopyMeter();
    final SampleDigest digest;
    private final String name;
    private final AudioFormat format;
    private final long frames;
    private final double factor;
    private final double gainDb;
    private final Quantiser quantiser;
    private double[][] scaled;
    private long[][] words;
    private double peak;
    private CopyFile file;

    Pass(String name, CopySource source, GainPlan gain) {
      this.name = name;
      this.format = source.format();
      this.digest = new SampleDigest(format);
      this.frames = source.frames();
      this.factor = gain.factor();
      this.gainDb = gain.gainDb();
      this.quantiser = new Quantiser(format, request.recipe().ditherSeed());
      this.scaled = new double[format.channels()][0];
      this.words = new long[format.channels()][0];
      meter.begin(format.sampleRateHz(), format.channels());
    }

    void to(CopyFile out) {
      file = out;
    }

    @Override
    public void accept(long at, double[][] samples, int count) throws IOException {
      if (words[0].length < count) {
        scaled = new double[format.channels()][count];
        words = new long[format.channels()][count];
      }
      for (int c = 0; c < words.length; c++) {
        for (int i = 0; i < count; i++) {
          double value = factor * samples[c][i];
          peak = Math.max(peak, Math.abs(value));
          scaled[c][i] = value;
        }
        quantiser.quantise(c, at, scaled[c], count, words[c]);
        Words.toDoubles(words[c], 0, scaled[c], 0, count, format);
      }
      try {
        crew.together(() -> put(count), () -> meter.accept(scaled, count));
      } catch (UncheckedIOException e) {
        throw e.getCause();
      }
      progress.at("writing", at + count, frames);
    }

    private void put(int count) {
      digest.update(words, 0, count);
      try {
        file.write(words, 0, count);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    void requireWhole() {
      if (quantiser.clipped() == 0) {
        return;
      }
      double over = Decibels.ofPower(peak * peak);
      throw new RequestRefusedException(
          String.format(
              Locale.ROOT,
              "%s: %d samples would have to be cut off at full scale, the largest lies at %+.2f dBFS; nothing was written:"
                  + " give this copy \"gain: %.1f\" or less, a loudness, or the depth float32",
              name,
              quantiser.clipped(),
              over,
              Math.floor(10 * (gainDb - over - 0.05)) / 10));
    }
  }
}
