package org.groovemend.ledger;

import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.Words;

/**
 * Words of a range of one channel as the ledger lays them out: containerBits / 8 bytes each, little
 * end first.
 */
public final class RangeWords {

  private final int width;
  private final Sha256 sha256 = new Sha256();
  private byte[] work = new byte[0];

  public RangeWords(AudioFormat format) {
    width = format.bytesPerSample();
  }

  /**
   * The bytes of {@code count} words from {@code offset} on, in a new array: {@link
   * LedgerEdit#original()}.
   */
  public byte[] bytes(long[] words, int offset, int count) {
    byte[] out = new byte[Math.multiplyExact(count, width)];
    put(words, offset, count, out);
    return out;
  }

  /** SHA-256 of these bytes: {@link LedgerEdit#before()} and {@link LedgerEdit#after()}. */
  public String digest(long[] words, int offset, int count) {
    update(words, offset, count);
    return sha256.hex();
  }

  /**
   * Adds words to the digest that {@link #digest()} gives, for ranges that are read piece by piece.
   */
  public void update(long[] words, int offset, int count) {
    int length = Math.multiplyExact(count, width);
    if (work.length < length) {
      work = new byte[length];
    }
    put(words, offset, count, work);
    sha256.update(work, 0, length);
  }

  /** Digest of what was given to {@link #update}; starts anew. */
  public String digest() {
    return sha256.hex();
  }

  private void put(long[] words, int offset, int count, byte[] out) {
    for (int i = 0; i < count; i++) {
      Words.putLittleEndian(words[offset + i], out, i * width, width);
    }
  }
}
