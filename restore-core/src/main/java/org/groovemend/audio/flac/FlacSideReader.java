package org.groovemend.audio.flac;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.LayoutSink;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;

/**
 * A side in a FLAC file (RFC 9639): mono or stereo, 16 to 32 bits, 8 to 384 kHz.
 *
 * <p>Samples of 17 to 23 bits stand at the top of 24-bit words, those of 25 to 31 bits at the top
 * of 32-bit words.
 *
 * <p>The first time a position is reached, every frame up to it has been decoded in order, its
 * checksums compared and its samples added to the MD5. So whoever has read the last sample of the
 * side knows that the whole file is sound: number of samples, MD5 and end of file are compared
 * before the last frame is handed out. After damage has been met, every read fails with it. Going
 * back decodes from the nearest indexed frame on.
 */
public final class FlacSideReader implements SideReader {

  private final Path path;
  private final FileChannel file;
  private final FlacMetadata metadata;
  private final List<String> notices = new ArrayList<>();
  private final FrameIndex index = new FrameIndex();
  private final StreamCheck frontier;
  private final FrameWalker revisit;
  private final int shift;
  private final long frames;
  private InputRejectedException damage;

  private FlacSideReader(Path path, FileChannel file) throws IOException {
    this.path = path;
    this.file = file;
    metadata = FlacMetadata.read(file, path);
    frontier = new StreamCheck(walker(), metadata.info(), notices::add);
    revisit = walker();
    shift = metadata.format().containerBits() - metadata.info().bits();
    if (metadata.info().totalFrames() == 0) {
      notices.add("STREAMINFO does not say how many samples there are, so they were counted.");
      while (!frontier.hasEnded()) {
        advance();
      }
      frames = frontier.walker().endFrame();
    } else {
      frames = metadata.info().totalFrames();
    }
  }

  private FrameWalker walker() throws IOException {
    return new FrameWalker(file, path, metadata.info(), metadata.framesOffset());
  }

  /**
   * Opens a file for reading only. A file whose header does not tell its length is decoded once
   * here.
   *
   * @throws InputRejectedException if it is not a FLAC file, is damaged, or is of a kind that is
   *     not taken
   */
  public static FlacSideReader open(Path path) throws IOException {
    FileChannel file = FileChannel.open(path, StandardOpenOption.READ);
    try {
      return new FlacSideReader(path, file);
    } catch (IOException | RuntimeException e) {
      file.close();
      throw e;
    }
  }

  @Override
  public void readWords(long firstFrame, int count, long[][] into, int offset) throws IOException {
    if (firstFrame < 0 || count < 0 || firstFrame > frames - count) {
      throw new IndexOutOfBoundsException(
          "frames " + firstFrame + " to " + (firstFrame + count) + " of " + frames);
    }
    for (int done = 0; done < count; ) {
      long position = firstFrame + done;
      FrameWalker walker = find(position);
      int from = (int) (position - walker.firstFrame());
      int n = (int) Math.min(count - done, walker.endFrame() - position);
      for (int c = 0; c < metadata.info().channels(); c++) {
        int[] samples = walker.reader().samples[c];
        long[] words = into[c];
        for (int i = 0; i < n; i++) {
          words[offset + done + i] = (long) samples[from + i] << shift;
        }
      }
      done += n;
    }
  }

  /** Gives the walker that stands at the frame which holds a position. */
  private FrameWalker find(long position) throws IOException {
    if (damage != null) {
      throw damage;
    }
    FrameWalker front = frontier.walker();
    while (position >= front.endFrame()) {
      advance();
    }
    if (position >= front.firstFrame()) {
      return front;
    }
    try {
      int entry = index.floor(position);
      if (position < revisit.firstFrame() || index.firstFrame(entry) > revisit.endFrame()) {
        revisit.jump(index.offset(entry), index.firstFrame(entry), index.frameNumber(entry));
      }
      while (position >= revisit.endFrame()) {
        revisit.next();
      }
      return revisit;
    } catch (InputRejectedException e) {
      damage = e;
      throw e;
    }
  }

  /** Decodes one frame more than ever before, or checks the end; with the last frame does both. */
  private void advance() throws IOException {
    try {
      if (frontier.next()) {
        FrameWalker front = frontier.walker();
        index.add(front.firstFrame(), front.offset(), front.frameNumber());
        if (front.endFrame() == metadata.info().totalFrames()) {
          frontier.next();
        }
      }
    } catch (InputRejectedException e) {
      damage = e;
      throw e;
    }
  }

  @Override
  public void describeLayout(LayoutSink sink) throws IOException {
    bytes(sink, 0, metadata.framesOffset());
    // notices of this walk have been or will be given by the first one
    StreamCheck check = new StreamCheck(walker(), metadata.info(), notice -> {});
    FrameWalker walker = check.walker();
    RecipeMaker maker = new RecipeMaker(metadata.info());
    while (check.next()) {
      int from = walker.frameFrom();
      maker.add(walker.reader(), walker.bytes(), from, from + walker.frameBytes());
      if (maker.groupIsFull()) {
        sink.accept(maker.takeGroup());
      }
    }
    if (!maker.groupIsEmpty()) {
      sink.accept(maker.takeGroup());
    }
    bytes(sink, walker.nextOffset(), file.size());
  }

  private void bytes(LayoutSink sink, long from, long to) throws IOException {
    FileWindow window = new FileWindow(file, LayoutPiece.MAX_BYTES);
    window.seek(from);
    for (long at = from; at < to; ) {
      int n = (int) Math.min(LayoutPiece.MAX_BYTES, to - at);
      sink.accept(new LayoutPiece.Bytes(window.take(n)));
      at += n;
    }
  }

  @Override
  public AudioFormat format() {
    return metadata.format();
  }

  @Override
  public long frames() {
    return frames;
  }

  @Override
  public Path path() {
    return path;
  }

  @Override
  public String container() {
    return "FLAC";
  }

  /** Metadata blocks, and a leading tag if there is one. */
  @Override
  public List<String> parts() {
    return metadata.parts();
  }

  /** Complete once the last sample has been read. */
  @Override
  public List<String> notices() {
    return List.copyOf(notices);
  }

  @Override
  public List<WavChunk> wavChunks() {
    return List.of(WavChunk.samples());
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
