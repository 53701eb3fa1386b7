package org.groovemend.ledger;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.WordSource;

/** Compares a source of words with the facts about it. */
final class SideDigests {

  static final int BLOCK_FRAMES = 1 << 14;

  private SideDigests() {}

  /** Digest of all samples of a side. */
  static String samples(WordSource side) throws IOException {
    AudioFormat format = side.format();
    SampleDigest digest = new SampleDigest(format);
    long[][] words = new long[format.channels()][BLOCK_FRAMES];
    for (long first = 0; first < side.frames(); first += BLOCK_FRAMES) {
      int count = (int) Math.min(BLOCK_FRAMES, side.frames() - first);
      side.readWords(first, count, words, 0);
      digest.update(words, 0, count);
    }
    return digest.hex();
  }

  /** Null if the side has the rate, width, channels and length of the facts; else both in words. */
  static Mismatch shape(String place, FileFacts facts, WordSource side) {
    String expected = shape(facts.format(), facts.frames());
    String found = shape(side.format(), side.frames());
    return expected.equals(found) ? null : new Mismatch(place, expected, found);
  }

  private static String shape(AudioFormat format, long frames) {
    return format.sampleRateHz()
        + " Hz, "
        + format.channels()
        + " channel(s), "
        + format.containerBits()
        + "-bit "
        + format.coding()
        + ", "
        + frames
        + " frames";
  }

  /** Null if the samples are those of the facts; else what differs. */
  static Mismatch samples(String place, FileFacts facts, WordSource side) throws IOException {
    Mismatch shape = shape(place, facts, side);
    if (shape != null) {
      return shape;
    }
    String found = samples(side);
    return found.equals(facts.samplesSha256())
        ? null
        : new Mismatch(place, "samples of SHA-256 " + facts.samplesSha256(), found);
  }
}
