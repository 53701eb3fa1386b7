package org.groovemend.audio.flac;

/** Reads the coded residual of a subframe, RFC 9639 section 9.2.7, and notes how it was coded. */
final class ResidualReader {

  private ResidualReader() {}

  /** Fills {@code residual[plan.order]} to {@code residual[blockSize - 1]}. */
  static void read(BitReader in, SubframePlan plan, int blockSize, int[] residual)
      throws DamagedFrameException {
    int method = (int) in.read(2);
    if (method > 1) {
      throw new DamagedFrameException("the residual is coded by a reserved method");
    }
    plan.parameterBits = 4 + method;
    int partitionOrder = (int) in.read(4);
    plan.setPartitionOrder(partitionOrder);
    int length = blockSize >>> partitionOrder;
    if (length << partitionOrder != blockSize || length < plan.order) {
      throw new DamagedFrameException(
          "a block of " + blockSize + " cannot be parted in " + (1 << partitionOrder));
    }
    int from = plan.order;
    for (int p = 0; p < 1 << partitionOrder; p++) {
      int to = plan.partitionEnd(p, blockSize);
      int parameter = (int) in.read(plan.parameterBits);
      plan.parameters[p] = parameter;
      if (parameter == plan.escapeParameter()) {
        int bits = (int) in.read(5);
        plan.rawBits[p] = bits;
        for (int i = from; i < to; i++) {
          residual[i] = (int) in.readSigned(bits);
        }
      } else {
        plan.rawBits[p] = SubframePlan.RICE;
        readRice(in, parameter, residual, from, to);
      }
      from = to;
    }
  }

  private static void readRice(BitReader in, int parameter, int[] residual, int from, int to)
      throws DamagedFrameException {
    byte[] bytes = in.bytes;
    long position = in.position;
    long end = in.end;
    int lowBits = 63 - parameter;
    long excess = 0;
    for (int i = from; i < to; i++) {
      if (position >= end) {
        throw DamagedFrameException.endOfBytes();
      }
      long word = BitReader.load(bytes, position);
      int zeros = Long.numberOfLeadingZeros(word);
      int count = zeros + 1 + parameter;
      long folded;
      if (count <= BitReader.LOAD_BITS) {
        // a one bit, then the low bits: together 2^parameter + low bits
        folded = (zeros - 1L << parameter) + (word << zeros >>> lowBits);
        position += count;
      } else {
        in.position = position;
        folded = (Math.min(in.readUnary(), 1L << 32) << parameter) + in.read(parameter);
        position = in.position;
      }
      excess |= folded;
      residual[i] = (int) (folded >>> 1) ^ -(int) (folded & 1);
    }
    in.position = position;
    if (position > end) {
      throw DamagedFrameException.endOfBytes();
    }
    if (excess >>> 32 != 0) {
      throw new DamagedFrameException("a residual does not fit 32 bits");
    }
  }
}
