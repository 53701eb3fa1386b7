package org.groovemend.audio.flac;

import java.io.IOException;
import java.util.List;
import java.util.function.Consumer;
import org.groovemend.audio.InputRejectedException;

/**
 * Walks through a stream once and sees that it ends as it should: number of samples, MD5, and what
 * follows.
 */
final class StreamCheck {

  private static final int ID3V1_BYTES = 128;
  private static final List<String> TAG_MARKERS = List.of("TAG", "APETAGEX", "ID3", "LYRICSBEGIN");

  private final FrameWalker walker;
  private final StreamInfo info;
  private final Consumer<String> notices;
  private final SampleMd5 md5;
  private boolean overlong;
  private boolean ended;

  StreamCheck(FrameWalker walker, StreamInfo info, Consumer<String> notices) {
    this.walker = walker;
    this.info = info;
    this.notices = notices;
    this.md5 = info.hasMd5() ? new SampleMd5(info.channels(), info.bits()) : null;
  }

  FrameWalker walker() {
    return walker;
  }

  boolean hasEnded() {
    return ended;
  }

  /** Decodes the next frame; false if there is none and all is well. */
  boolean next() throws IOException {
    if (ended) {
      return false;
    }
    if (info.totalFrames() > 0 ? walker.endFrame() == info.totalFrames() : endsHere()) {
      finish();
      return false;
    }
    walker.next();
    int frames = walker.reader().frames();
    if (md5 != null) {
      md5.update(walker.reader().samples, frames);
    }
    if (frames > info.maxBlockSize() && !overlong) {
      overlong = true;
      notices.accept(
          "STREAMINFO says blocks of at most "
              + info.maxBlockSize()
              + " samples, and there is one of "
              + frames
              + ".");
    }
    return true;
  }

  /** Whether a stream of unknown length ends: with the file, or with a tag that ends the file. */
  private boolean endsHere() throws IOException {
    String next = walker.peek(ID3V1_BYTES + 1);
    return next.isEmpty() || next.length() == ID3V1_BYTES && next.startsWith("TAG");
  }

  private void finish() throws IOException {
    if (walker.endFrame() == 0) {
      throw walker.rejected("the stream holds no samples");
    }
    if (md5 == null) {
      notices.accept(
          "The file holds no MD5 of its samples, so only the checksums of the frames were compared.");
    } else if (!SampleMd5.same(md5.digest(), info.md5())) {
      throw walker.rejected("all frames decode, but the MD5 of the samples is not the stored one");
    }
    String next = walker.peek(16);
    if (!next.isEmpty()) {
      checkTrailing(next);
    }
    ended = true;
  }

  private void checkTrailing(String next) throws InputRejectedException, IOException {
    if (next.startsWith("fLaC")) {
      throw walker.rejected("a second FLAC stream follows this last frame");
    }
    if (walker.isFollowedByFrame()) {
      throw walker.rejected(
          "frames follow after the " + info.totalFrames() + " samples that STREAMINFO says");
    }
    boolean tag = TAG_MARKERS.stream().anyMatch(next::startsWith);
    notices.accept(
        (tag ? "A tag of another kind" : "Bytes that are not FLAC")
            + " follow the last frame, from byte "
            + walker.nextOffset()
            + " on; they are kept and not read.");
  }
}
