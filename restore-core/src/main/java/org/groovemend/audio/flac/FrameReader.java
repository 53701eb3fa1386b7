package org.groovemend.audio.flac;

/**
 * Decodes single frames and keeps the samples, plan and residuals of the last one.
 *
 * <p>What it accepts is whole: both checksums hold and every sample fits the bits of the stream.
 */
final class FrameReader {

  private final StreamInfo info;
  private final BitReader in = new BitReader();

  final FramePlan plan = new FramePlan();

  /** By channel: left and right, or mono. */
  final int[][] samples = {new int[0], new int[0]};

  /** By subframe; beyond the order of a predicted one. */
  final int[][] residual = {new int[0], new int[0]};

  private long[] wideSide = new long[0];

  FrameReader(StreamInfo info) {
    this.info = info;
  }

  int frames() {
    return plan.header.blockSize;
  }

  /**
   * Decodes the frame that begins at {@code from}.
   *
   * @param to end of the bytes at hand; the array reaches {@link BitReader#SLACK} further
   * @return the index after the frame
   */
  int read(byte[] bytes, int from, int to) throws DamagedFrameException {
    int at = plan.header.parse(bytes, from, to, info);
    int count = plan.header.blockSize;
    reserve(count);
    in.set(bytes, at, to);
    boolean wide = false;
    for (int s = 0; s < info.channels(); s++) {
      int bits = plan.subframeBits(s, info.bits());
      if (bits > 32) {
        wide = true;
        if (wideSide.length < count) {
          wideSide = new long[samples[0].length];
        }
        SubframeReader.readWide(in, bits, count, plan.subframes[s], residual[s], wideSide);
      } else {
        SubframeReader.read(in, bits, count, plan.subframes[s], residual[s], samples[s]);
      }
    }
    int end = in.alignToByte();
    if (end + 2 > to) {
      throw DamagedFrameException.endOfBytes();
    }
    int stored = (bytes[end] & 0xff) << 8 | bytes[end + 1] & 0xff;
    if (FrameCrc.crc16(bytes, from, end) != stored) {
      throw new DamagedFrameException("the checksum of the frame (CRC-16) does not hold");
    }
    boolean fits = true;
    if (wide) {
      fits = plan.header.assignment.joinWide(samples[0], samples[1], wideSide, count);
    } else {
      plan.header.assignment.join(samples[0], samples[1], count);
    }
    for (int c = 0; c < info.channels(); c++) {
      fits &= fits(samples[c], count, 32 - info.bits());
    }
    if (!fits) {
      throw new DamagedFrameException("a sample does not fit " + info.bits() + " bits");
    }
    return end + 2;
  }

  private void reserve(int count) {
    if (samples[0].length < count) {
      for (int c = 0; c < info.channels(); c++) {
        samples[c] = new int[count];
        residual[c] = new int[count];
      }
    }
  }

  private static boolean fits(int[] x, int count, int shift) {
    int lost = 0;
    for (int i = 0; i < count; i++) {
      int value = x[i];
      lost |= value << shift >> shift ^ value;
    }
    return lost == 0;
  }
}
