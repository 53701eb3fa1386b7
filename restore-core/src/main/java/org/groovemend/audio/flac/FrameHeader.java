package org.groovemend.audio.flac;

/**
 * A frame header, RFC 9639 section 9.1: read, and kept as the bytes it was read from. Reused,
 * mutable.
 *
 * <p>Values that the header leaves to STREAMINFO are taken from there; values that contradict it
 * are damage.
 */
final class FrameHeader {

  /** Bytes at most: sync and codes 4, number 7, block size 2, rate 2, CRC-8 1. */
  static final int MAX_BYTES = 16;

  private static final int[] RATES_HZ = {
    0, 88_200, 176_400, 192_000, 8_000, 16_000, 22_050, 24_000, 32_000, 44_100, 48_000, 96_000
  };
  private static final int[] SAMPLE_BITS = {0, 8, 12, -1, 16, 20, 24, 32};

  /** The bytes without the CRC-8. */
  final byte[] raw = new byte[MAX_BYTES];

  int rawLength;

  /** Whether {@link #number} counts frames and not samples. */
  boolean fixedBlockSize;

  /** Of the frame, or of its first sample. */
  long number;

  int blockSize;
  ChannelAssignment assignment = ChannelAssignment.MONO;

  /**
   * Reads the header that begins at {@code from}.
   *
   * @return the index after its CRC-8
   */
  int parse(byte[] bytes, int from, int to, StreamInfo info) throws DamagedFrameException {
    need(from + 5, to);
    if ((bytes[from] & 0xff) != 0xff || (bytes[from + 1] & 0xfc) != 0xf8) {
      throw new DamagedFrameException("a frame must begin with the sync code here and does not");
    }
    int codes = (bytes[from + 2] & 0xff) << 8 | bytes[from + 3] & 0xff;
    int blockCode = codes >> 12;
    int rateCode = codes >> 8 & 15;
    int numberLength = CodedNumber.length(bytes[from + 4]);
    int blockBytes = blockCode == 6 ? 1 : blockCode == 7 ? 2 : 0;
    int rateBytes = rateCode == 12 ? 1 : rateCode == 13 || rateCode == 14 ? 2 : 0;
    rawLength = 4 + numberLength + blockBytes + rateBytes;
    need(from + rawLength + 1, to);
    if (FrameCrc.crc8(bytes, from, from + rawLength) != (bytes[from + rawLength] & 0xff)) {
      throw new DamagedFrameException("the checksum of the frame header (CRC-8) does not hold");
    }
    if ((bytes[from + 1] & 2) != 0 || (codes & 1) != 0) {
      throw new DamagedFrameException("a reserved bit of the frame header is set");
    }
    number = numberLength == 0 ? -1 : CodedNumber.get(bytes, from + 4);
    if (number < 0) {
      throw new DamagedFrameException("the number in the frame header is malformed");
    }
    fixedBlockSize = (bytes[from + 1] & 1) == 0;
    int tail = from + 4 + numberLength;
    blockSize = blockSize(blockCode, number(bytes, tail, blockBytes));
    checkRate(rateCode, number(bytes, tail + blockBytes, rateBytes), info);
    assignment = ChannelAssignment.ofCode(codes >> 4 & 15);
    checkShape(SAMPLE_BITS[codes >> 1 & 7], info);
    System.arraycopy(bytes, from, raw, 0, rawLength);
    return from + rawLength + 1;
  }

  private static void need(int end, int to) throws DamagedFrameException {
    if (end > to) {
      throw DamagedFrameException.endOfBytes();
    }
  }

  private static int number(byte[] bytes, int at, int length) {
    int value = 0;
    for (int i = 0; i < length; i++) {
      value = value << 8 | bytes[at + i] & 0xff;
    }
    return value;
  }

  private static int blockSize(int code, int stored) throws DamagedFrameException {
    if (code == 0 || stored == 65_535) {
      throw new DamagedFrameException("the frame header names a block size that is not allowed");
    }
    if (code == 1) {
      return 192;
    }
    if (code <= 5) {
      return 144 << code;
    }
    return code <= 7 ? stored + 1 : 1 << code;
  }

  private static void checkRate(int code, int stored, StreamInfo info)
      throws DamagedFrameException {
    int rate =
        switch (code) {
          case 0 -> info.sampleRateHz();
          case 12 -> 1000 * stored;
          case 13 -> stored;
          case 14 -> 10 * stored;
          case 15 -> -1;
          default -> RATES_HZ[code];
        };
    if (rate != info.sampleRateHz()) {
      throw new DamagedFrameException(
          "the frame header names a sampling rate of "
              + (rate < 0 ? "a reserved code" : rate + " Hz")
              + " and STREAMINFO one of "
              + info.sampleRateHz()
              + " Hz");
    }
  }

  private void checkShape(int bits, StreamInfo info) throws DamagedFrameException {
    if (bits != 0 && bits != info.bits()) {
      throw new DamagedFrameException(
          "the frame header names "
              + (bits < 0 ? "a reserved code for the bits" : bits + " bits")
              + " and STREAMINFO "
              + info.bits());
    }
    if (assignment.channels() != info.channels()) {
      throw new DamagedFrameException(
          "the frame header names "
              + assignment.channels()
              + " channel(s) and STREAMINFO "
              + info.channels());
    }
  }

  void copyFrom(FrameHeader other) {
    System.arraycopy(other.raw, 0, raw, 0, other.rawLength);
    rawLength = other.rawLength;
    fixedBlockSize = other.fixedBlockSize;
    number = other.number;
    blockSize = other.blockSize;
    assignment = other.assignment;
  }

  /**
   * Makes the header of a frame of a fixed-block-size stream; {@code raw} is complete afterwards.
   */
  void set(StreamInfo info, long frameNumber, int blockSize, ChannelAssignment assignment) {
    this.fixedBlockSize = true;
    this.number = frameNumber;
    this.blockSize = blockSize;
    this.assignment = assignment;
    int power = Integer.numberOfTrailingZeros(blockSize);
    int blockCode = power >= 8 && blockSize == 1 << power && power < 16 ? power : 7;
    int rateCode = 0;
    for (int i = 1; i < RATES_HZ.length; i++) {
      rateCode = RATES_HZ[i] == info.sampleRateHz() ? i : rateCode;
    }
    int bitsCode = 0;
    for (int i = 1; i < SAMPLE_BITS.length; i++) {
      bitsCode = SAMPLE_BITS[i] == info.bits() ? i : bitsCode;
    }
    raw[0] = (byte) 0xff;
    raw[1] = (byte) 0xf8;
    raw[2] = (byte) (blockCode << 4 | rateCode);
    raw[3] = (byte) (assignment.code() << 4 | bitsCode << 1);
    rawLength = 4 + CodedNumber.put(frameNumber, raw, 4);
    if (blockCode == 7) {
      raw[rawLength++] = (byte) (blockSize - 1 >> 8);
      raw[rawLength++] = (byte) (blockSize - 1);
    }
  }
}
