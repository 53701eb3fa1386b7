package org.groovemend.job.deliver;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SampleDigest;
import org.groovemend.deliverable.CopyFile;
import org.groovemend.deliverable.CopyLevel;
import org.groovemend.deliverable.CopyMeter;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Sha256;

/** A file of a copy: all of it, or one band. */
final class CopyPart implements Closeable {

  /** Makes the file. */
  @FunctionalInterface
  interface Opening {
    CopyFile open(CopyPart part) throws IOException;
  }

  private final Path path;
  private final CopyBand band;
  private final long first;
  private final long end;
  private final AudioFormat format;
  private final CopyMeter meter = new CopyMeter();
  private final SampleDigest digest;
  private CopyFile file;

  /**
   * @param path of the file
   * @param band null for the whole
   * @param first frame of the copy
   * @param end behind its last
   */
  CopyPart(Path path, CopyBand band, long first, long end, AudioFormat format) {
    this.path = path;
    this.band = band;
    this.first = first;
    this.end = end;
    this.format = format;
    this.digest = new SampleDigest(format);
    meter.begin(format.sampleRateHz(), format.channels());
  }

  Path path() {
    return path;
  }

  CopyBand band() {
    return band;
  }

  long first() {
    return first;
  }

  long end() {
    return end;
  }

  long frames() {
    return end - first;
  }

  void open(Opening opening) throws IOException {
    file = opening.open(this);
  }

  /** May be called beside {@link #write} with the same block. */
  void measure(double[][] samples, int count) {
    meter.accept(samples, count);
  }

  void write(long[][] words, int offset, int count) throws IOException {
    digest.update(words, offset, count);
    file.write(words, offset, count);
  }

  CopyLevel level() {
    return meter.finish();
  }

  @Override
  public void close() throws IOException {
    if (file != null) {
      file.close();
    }
  }

  /** What lies on the disk, once it is closed. */
  FileFacts facts(String container) throws IOException {
    return new FileFacts(
        FilePath.name(path),
        Files.size(path),
        Sha256.of(path),
        digest.hex(),
        frames(),
        format,
        container);
  }
}
