package org.groovemend.deliverable;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.AiffWriter;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.audio.flac.FlacWriter;
import org.groovemend.stage.Crew;

/** A file under work in any of the forms. */
public final class CopyFile implements Closeable {

  @FunctionalInterface
  private interface Words {
    void write(long[][] words, int offset, int count) throws IOException;
  }

  private final Words words;
  private final Closeable file;

  private CopyFile(Words words, Closeable file) {
    this.words = words;
    this.file = file;
  }

  /**
   * Creates the file, which must not exist.
   *
   * @param frames exactly as many as will be written
   * @param chunks for WAV: what stands around the samples, each with its content, the samples'
   *     marker last
   * @param tags go into any form
   */
  public static CopyFile create(
      Path path,
      Container container,
      AudioFormat format,
      long frames,
      List<WavChunk> chunks,
      FileTags tags,
      Crew crew)
      throws IOException {
    switch (container) {
      case WAV -> {
        List<WavChunk> all = new ArrayList<>(chunks);
        all.addAll(tags.wav());
        WavWriter wav = WavWriter.create(path, format, frames, all, null);
        return new CopyFile(wav::write, wav);
      }
      case FLAC -> {
        FlacWriter flac =
            new FlacWriter(path, format, frames, crew.executor(), crew.hands(), tags.flac());
        return new CopyFile(flac::write, flac);
      }
      default -> {
        AiffWriter aiff = AiffWriter.create(path, format, frames, tags.aiffId3());
        return new CopyFile(aiff::write, aiff);
      }
    }
  }

  /** Takes consecutive frames, {@code words[channel][offset...]}. */
  public void write(long[][] block, int offset, int count) throws IOException {
    words.write(block, offset, count);
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
