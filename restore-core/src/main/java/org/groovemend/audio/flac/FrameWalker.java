package org.groovemend.audio.flac;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.groovemend.audio.InputRejectedException;

/** Goes through the frames of a file one after the other and keeps the last one decoded. */
final class FrameWalker {

  private static final int WINDOW_BYTES = 1 << 19;

  /**
   * A frame that does not end within this is damaged: a block of 65,535 stereo samples as they are
   * needs 0.6 MB.
   */
  private static final int MAX_FRAME_BYTES = 1 << 24;

  private static final String ANOTHER_COPY =
      "take another copy, or repair this one with a general program and mind what is lost";

  private final Path path;
  private final FileWindow window;
  private final StreamInfo info;
  private final FrameReader reader;
  private int neededBytes = 1 << 16;

  private long offset;
  private long firstFrame;
  private long frameNumber;
  private int frames;
  private int frameBytes;

  FrameWalker(FileChannel file, Path path, StreamInfo info, long framesOffset) throws IOException {
    this.path = path;
    this.info = info;
    this.window = new FileWindow(file, (int) Math.min(WINDOW_BYTES, file.size() + 1));
    this.reader = new FrameReader(info);
    jump(framesOffset, 0, 0);
  }

  /** Makes the frame at {@code offset} the next one; none is decoded until then. */
  void jump(long offset, long firstFrame, long frameNumber) {
    this.offset = offset;
    this.firstFrame = firstFrame;
    this.frameNumber = frameNumber;
    frames = 0;
    frameBytes = 0;
  }

  /** Decodes the next frame; whether there is one is for the caller to know. */
  void next() throws IOException {
    long at = nextOffset();
    long number = frames == 0 ? frameNumber : frameNumber + 1;
    firstFrame += frames;
    frames = 0;
    offset = at;
    frameBytes = 0;
    frameNumber = number;
    window.seek(at);
    int length = decode();
    FrameHeader header = reader.plan.header;
    long expected = header.fixedBlockSize ? number : firstFrame;
    if (header.number != expected) {
      throw rejected(
          "the frame header has the number " + header.number + " where " + expected + " is due");
    }
    if (info.totalFrames() > 0 && firstFrame + header.blockSize > info.totalFrames()) {
      throw rejected(
          "the frame goes on beyond the " + info.totalFrames() + " samples of STREAMINFO");
    }
    frames = header.blockSize;
    frameBytes = length;
  }

  private int decode() throws IOException {
    window.fill(neededBytes);
    while (true) {
      try {
        int from = window.from();
        return reader.read(window.bytes(), from, window.to()) - from;
      } catch (DamagedFrameException e) {
        if (!e.isEndOfBytes()) {
          throw rejected(e.getMessage());
        }
        if (window.reachesEndOfFile()) {
          throw rejected("the file ends within or before this frame");
        }
        if (neededBytes >= MAX_FRAME_BYTES) {
          throw rejected("the frame does not end");
        }
        neededBytes *= 2;
        window.fill(neededBytes);
      }
    }
  }

  /** Whether at least one byte follows the current frame. */
  boolean hasMoreBytes() throws IOException {
    return !peek(1).isEmpty();
  }

  /** Up to {@code count} bytes after the current frame, as ISO 8859-1. */
  String peek(int count) throws IOException {
    window.seek(nextOffset());
    window.fill(count);
    int n = Math.min(count, window.available());
    return new String(window.bytes(), window.from(), n, StandardCharsets.ISO_8859_1);
  }

  /** Whether a header of a frame of this stream follows the current frame. */
  boolean isFollowedByFrame() throws IOException {
    window.seek(nextOffset());
    window.fill(FrameHeader.MAX_BYTES);
    try {
      new FrameHeader().parse(window.bytes(), window.from(), window.to(), info);
      return true;
    } catch (DamagedFrameException e) {
      return false;
    }
  }

  /** A rejection at the current frame. */
  InputRejectedException rejected(String what) {
    String where =
        "at byte " + offset + " (FLAC frame " + frameNumber + ", sample " + firstFrame + ")";
    return new InputRejectedException(path, where, what, ANOTHER_COPY);
  }

  FrameReader reader() {
    return reader;
  }

  /** Bytes of the current frame: from {@code frameFrom()} for {@code frameBytes()}. */
  byte[] bytes() {
    return window.bytes();
  }

  int frameFrom() {
    return window.from();
  }

  int frameBytes() {
    return frameBytes;
  }

  long offset() {
    return offset;
  }

  long nextOffset() {
    return offset + frameBytes;
  }

  long frameNumber() {
    return frameNumber;
  }

  long firstFrame() {
    return firstFrame;
  }

  long endFrame() {
    return firstFrame + frames;
  }
}
