package org.groovemend.audio.flac;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.zip.Deflater;
import org.groovemend.audio.LayoutPiece;

/**
 * Makes recipes of groups of frames. Each frame is made again from its recipe at once and compared;
 * one that does not come back is kept whole.
 *
 * <p>A recipe is: version, bits of a sample, then the frames ({@link FrameRecipe}) in a zlib stream
 * (RFC 1950).
 */
final class RecipeMaker {

  static final int VERSION = 1;

  /** A group ends when its frames have come to this, before they are packed. */
  private static final int GROUP_BYTES = 64 * 1024;

  private static final int MAX_GROUP_FRAMES = 1 << 22;

  private final StreamInfo info;
  private final FrameRestorer check;
  private final ByteArrayOutputStream group = new ByteArrayOutputStream();
  private final ByteArrayOutputStream one = new ByteArrayOutputStream();
  private long firstFrame;
  private int frames;
  private long keptWhole;

  RecipeMaker(StreamInfo info) {
    this.info = info;
    this.check = new FrameRestorer(info);
  }

  /**
   * Adds the frame that {@code decoded} has just read from {@code bytes[from]} to {@code bytes[to -
   * 1]}.
   */
  void add(FrameReader decoded, byte[] bytes, int from, int to) {
    one.reset();
    FrameRecipe.put(one, decoded.plan, check.before(), decoded.residual);
    if (!comesBack(one.toByteArray(), decoded.samples, bytes, from, to)) {
      keptWhole++;
      one.reset();
      one.write(FrameRecipe.VERBATIM);
      for (int left = to - from; ; left >>>= 7) {
        one.write(left < 0x80 ? left : left & 0x7f | 0x80);
        if (left < 0x80) {
          break;
        }
      }
      one.write(bytes, from, to - from);
      check.before().copyFrom(decoded.plan.header);
    }
    group.writeBytes(one.toByteArray());
    frames += decoded.frames();
  }

  private boolean comesBack(byte[] recipe, int[][] samples, byte[] bytes, int from, int to) {
    RecipeBytes in = new RecipeBytes(recipe);
    try {
      check.begin(in);
      check.finish(in, samples);
    } catch (DamagedFrameException e) {
      // a frame the recipe has no words for
      return false;
    }
    return in.isEmpty() && Arrays.equals(check.bytes(), 0, check.length(), bytes, from, to);
  }

  boolean groupIsFull() {
    return group.size() >= GROUP_BYTES || frames >= MAX_GROUP_FRAMES;
  }

  boolean groupIsEmpty() {
    return frames == 0;
  }

  /** Frames, since the beginning, that were kept whole. */
  long keptWhole() {
    return keptWhole;
  }

  /** Ends the group and gives it; the next one stands alone. */
  LayoutPiece.FlacFrames takeGroup() {
    ByteArrayOutputStream recipe = new ByteArrayOutputStream();
    recipe.write(VERSION);
    recipe.write(info.bits());
    Deflater deflater = new Deflater(Deflater.DEFAULT_COMPRESSION);
    try {
      deflater.setInput(group.toByteArray());
      deflater.finish();
      byte[] part = new byte[8192];
      while (!deflater.finished()) {
        recipe.write(part, 0, deflater.deflate(part));
      }
    } finally {
      deflater.end();
    }
    LayoutPiece.FlacFrames piece =
        new LayoutPiece.FlacFrames(firstFrame, frames, recipe.toByteArray());
    firstFrame += frames;
    frames = 0;
    group.reset();
    check.startGroup();
    return piece;
  }
}
