package org.groovemend.audio.flac;

/** A recipe being read. */
final class RecipeBytes {

  private final byte[] bytes;
  private int at;

  RecipeBytes(byte[] bytes) {
    this.bytes = bytes;
  }

  boolean isEmpty() {
    return at >= bytes.length;
  }

  int next() throws DamagedFrameException {
    if (at >= bytes.length) {
      throw new DamagedFrameException("the recipe ends too soon");
    }
    return bytes[at++] & 0xff;
  }

  /** A number of up to 31 bits, seven in a byte, low ones first. */
  int number() throws DamagedFrameException {
    long value = 0;
    for (int shift = 0; shift < 35; shift += 7) {
      int b = next();
      value |= (long) (b & 0x7f) << shift;
      if (b < 0x80) {
        if (value > Integer.MAX_VALUE) {
          break;
        }
        return (int) value;
      }
    }
    throw new DamagedFrameException("a number of the recipe is malformed");
  }

  void copy(byte[] into, int offset, int count) throws DamagedFrameException {
    if (count > bytes.length - at) {
      throw new DamagedFrameException("the recipe ends too soon");
    }
    System.arraycopy(bytes, at, into, offset, count);
    at += count;
  }

  int remaining() {
    return bytes.length - at;
  }
}
