package org.groovemend.audio.flac;

/**
 * Every decision in one subframe but no sample: with the samples it gives the bits of the subframe.
 * Reused, mutable.
 */
final class SubframePlan {

  static final int MAX_ORDER = 32;

  /** Value of {@link #rawBits} for a partition of Rice codes. */
  static final int RICE = -1;

  SubframeType type = SubframeType.VERBATIM;

  /** Low bits that are zero in every sample of the block and left out. */
  int wastedBits;

  /** Of the predictor; 0 for CONSTANT and VERBATIM. */
  int order;

  /** Bits of a coefficient, 1 to 15. */
  int precision;

  /** The prediction is shifted right by this, 0 to 15. */
  int shift;

  /** Coefficient of the sample i + 1 before. */
  final int[] coefficients = new int[MAX_ORDER];

  /** Bits of a Rice parameter: 4 (RFC: method 0) or 5 (method 1). */
  int parameterBits = 4;

  /**
   * The residual is in 2^partitionOrder parts of equal length; the first is shorter by the order.
   */
  int partitionOrder;

  /** By partition. */
  int[] parameters = new int[256];

  /**
   * By partition: {@link #RICE}, or the bits of every residual of a partition that is not Rice
   * coded, 0 to 31.
   */
  int[] rawBits = new int[256];

  boolean hasResidual() {
    return type == SubframeType.FIXED || type == SubframeType.LINEAR;
  }

  int escapeParameter() {
    return (1 << parameterBits) - 1;
  }

  void setPartitionOrder(int partitionOrder) {
    this.partitionOrder = partitionOrder;
    if (parameters.length < 1 << partitionOrder) {
      parameters = new int[1 << partitionOrder];
      rawBits = new int[1 << partitionOrder];
    }
  }

  /**
   * Index after the last residual of a partition in a block of {@code blockSize}; partition 0
   * begins at the order.
   */
  int partitionEnd(int partition, int blockSize) {
    return (blockSize >>> partitionOrder) * (partition + 1);
  }
}
