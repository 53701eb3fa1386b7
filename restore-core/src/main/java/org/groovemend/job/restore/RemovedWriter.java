package org.groovemend.job.restore;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.audio.flac.FlacWriter;
import org.groovemend.chain.WordSink;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Sha256;
import org.groovemend.ledger.SplitWords;
import org.groovemend.stage.Crew;

/**
 * Writes the difference words: FLAC up to 32 bits, halves in a WAV file for 64 (see {@link
 * SplitWords}), digesting what the file holds on the way.
 */
public final class RemovedWriter implements WordSink, Closeable {

  private static final int PART_FRAMES = 1 << 14;

  private final Path file;
  private final AudioFormat heldFormat;
  private final long heldFrames;
  private final SampleDigest digest;
  private final FlacWriter flac;
  private final WavWriter wav;
  private final long[][] halves;

  public RemovedWriter(Path file, AudioFormat format, long frames, Crew crew) throws IOException {
    this.file = file;
    if (format.containerBits() == Long.SIZE) {
      heldFormat = SplitWords.splitFormat(format);
      heldFrames = 2 * frames;
      flac = null;
      wav = WavWriter.create(file, heldFormat, heldFrames, List.of(WavChunk.samples()), null);
      halves = new long[format.channels()][2 * PART_FRAMES];
    } else {
      heldFormat =
          AudioFormat.pcm(format.sampleRateHz(), format.channels(), format.containerBits());
      heldFrames = frames;
      flac = new FlacWriter(file, heldFormat, frames, crew.executor(), crew.hands());
      wav = null;
      halves = null;
    }
    digest = new SampleDigest(heldFormat);
  }

  @Override
  public void write(long[][] words, int offset, int count) throws IOException {
    if (flac != null) {
      digest.update(words, offset, count);
      flac.write(words, offset, count);
      return;
    }
    for (int done = 0; done < count; done += PART_FRAMES) {
      int n = Math.min(PART_FRAMES, count - done);
      for (int c = 0; c < words.length; c++) {
        SplitWords.split(words[c], offset + done, n, halves[c], 0);
      }
      digest.update(halves, 0, 2 * n);
      wav.write(halves, 0, 2 * n);
    }
  }

  @Override
  public void close() throws IOException {
    if (flac != null) {
      flac.close();
    } else {
      wav.close();
    }
  }

  /** Identity of the finished file; to be asked once, after closing. */
  public FileFacts facts(String name) throws IOException {
    return new FileFacts(
        name,
        Files.size(file),
        Sha256.of(file),
        digest.hex(),
        heldFrames,
        heldFormat,
        flac != null ? "FLAC" : "WAV");
  }
}
