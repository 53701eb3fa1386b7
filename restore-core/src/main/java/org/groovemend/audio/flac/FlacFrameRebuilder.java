package org.groovemend.audio.flac;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;

/** Writes FLAC frames again, byte for byte, from a recipe and the samples. */
public final class FlacFrameRebuilder {

  /** More than any group of frames comes to; a longer recipe is not ours. */
  private static final int MAX_UNPACKED = 64 << 20;

  private FlacFrameRebuilder() {}

  /**
   * Rebuilds the bytes of one group of frames.
   *
   * @param recipe as {@link org.groovemend.audio.LayoutPiece.FlacFrames} holds it
   * @param samples the side; words may be wider than the samples of the FLAC file if their low bits
   *     are zero (20 bits in 24)
   * @param firstFrame of the side, that the first FLAC frame begins with
   * @param frames of the side, that the FLAC frames hold together
   * @param out takes the bytes; not closed
   * @throws IOException if the recipe is malformed or does not fit the samples, with a sentence
   *     that says so
   */
  public static void rebuild(
      byte[] recipe, WordSource samples, long firstFrame, int frames, OutputStream out)
      throws IOException {
    AudioFormat format = samples.format();
    int bits = recipe.length > 2 ? recipe[1] : 0;
    if (recipe.length <= 2 || recipe[0] != RecipeMaker.VERSION) {
      throw new IOException("The recipe of FLAC frames is not of a version known here.");
    }
    if (bits < 4 || bits > format.containerBits() || format.containerBits() > 32) {
      throw new IOException(
          "The recipe is for samples of "
              + bits
              + " bits and the samples have "
              + format.containerBits()
              + ".");
    }
    StreamInfo shape =
        new StreamInfo(0, 0, 0, 0, format.sampleRateHz(), format.channels(), bits, 0, new byte[16]);
    RecipeBytes in = new RecipeBytes(unpack(recipe));
    FrameRestorer restorer = new FrameRestorer(shape);
    SampleBlock block = new SampleBlock(format, bits);
    int done = 0;
    try {
      while (done < frames) {
        int count = restorer.begin(in);
        if (count > frames - done) {
          throw new DamagedFrameException("its frames hold more samples than they should");
        }
        block.read(samples, firstFrame + done, count);
        restorer.finish(in, block.samples());
        out.write(restorer.bytes(), 0, restorer.length());
        done += count;
      }
      if (!in.isEmpty()) {
        throw new DamagedFrameException("it goes on after the last frame");
      }
    } catch (DamagedFrameException e) {
      throw new IOException("The recipe of FLAC frames is damaged: " + e.getMessage() + ".", e);
    }
  }

  private static byte[] unpack(byte[] recipe) throws IOException {
    Inflater inflater = new Inflater();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    byte[] part = new byte[8192];
    try {
      inflater.setInput(recipe, 2, recipe.length - 2);
      while (!inflater.finished()) {
        int n = inflater.inflate(part);
        out.write(part, 0, n);
        if (n == 0 && !inflater.finished() || out.size() > MAX_UNPACKED) {
          throw new IOException("The recipe of FLAC frames is cut short or too long.");
        }
      }
    } catch (DataFormatException e) {
      throw new IOException("The recipe of FLAC frames is damaged: it does not unpack.", e);
    } finally {
      inflater.end();
    }
    return out.toByteArray();
  }
}
