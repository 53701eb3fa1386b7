package org.groovemend.audio.file;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.LayoutSink;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;

/** A side whose file holds the samples in one run of interleaved words. */
abstract class PcmSideReader implements SideReader {

  /**
   * Large enough to make calls to the system rare, small enough to stay in the processor's cache.
   */
  private static final int BUFFER_BYTES = 1 << 18;

  private final SideBytes file;
  private final ParsedSide side;
  private final int frameBytes;
  private final byte[] buffer;
  private long bufferedFrom;
  private int bufferedFrames;

  PcmSideReader(SideBytes file, ParsedSide side) {
    this.file = file;
    this.side = side;
    this.frameBytes = side.format().bytesPerFrame();
    this.buffer = new byte[(int) Math.min(BUFFER_BYTES / frameBytes, side.frames()) * frameBytes];
  }

  @Override
  public AudioFormat format() {
    return side.format();
  }

  @Override
  public long frames() {
    return side.frames();
  }

  @Override
  public Path path() {
    return file.path();
  }

  @Override
  public String container() {
    return side.container();
  }

  @Override
  public List<String> parts() {
    return side.parts();
  }

  @Override
  public List<String> notices() {
    return side.notices();
  }

  @Override
  public List<WavChunk> wavChunks() {
    return side.wavChunks();
  }

  @Override
  public void readWords(long firstFrame, int count, long[][] into, int offset) throws IOException {
    Objects.checkFromIndexSize(firstFrame, count, side.frames());
    int done = 0;
    while (done < count) {
      long frame = firstFrame + done;
      if (frame < bufferedFrom || frame >= bufferedFrom + bufferedFrames) {
        fill(frame);
      }
      int skip = (int) (frame - bufferedFrom);
      int n = Math.min(count - done, bufferedFrames - skip);
      WordBytes.decode(
          buffer, skip * frameBytes, n, side.format(), side.bigEndian(), into, offset + done);
      if (side.format().coding() == SampleCoding.FLOAT) {
        checkFinite(frame, n, into, offset + done);
      }
      done += n;
    }
  }

  private void fill(long frame) throws IOException {
    int n = (int) Math.min(buffer.length / frameBytes, side.frames() - frame);
    bufferedFrames = 0; // stays so if reading fails
    file.read(side.samplesAt() + frame * frameBytes, buffer, 0, n * frameBytes);
    bufferedFrom = frame;
    bufferedFrames = n;
  }

  private void checkFinite(long firstFrame, int count, long[][] words, int offset)
      throws IOException {
    long frame = Long.MAX_VALUE;
    int channel = 0;
    for (int c = 0; c < side.format().channels(); c++) {
      int at = WordBytes.firstNotFinite(words[c], offset, count, side.format().containerBits());
      if (at >= 0 && firstFrame + at < frame) {
        frame = firstFrame + at;
        channel = c;
      }
    }
    if (frame != Long.MAX_VALUE) {
      throw file.reject(
          "at frame " + frame + ", channel " + channel,
          "the sample is not a finite number",
          "export the transfer again as PCM, or without the processing that made it so");
    }
  }

  @Override
  public void describeLayout(LayoutSink sink) throws IOException {
    file.describe(0, side.samplesAt(), sink);
    sink.accept(new LayoutPiece.PcmFrames(0, side.frames(), side.bigEndian()));
    file.describe(side.samplesEnd(), file.size(), sink);
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
