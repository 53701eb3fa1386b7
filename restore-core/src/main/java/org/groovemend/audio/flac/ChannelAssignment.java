package org.groovemend.audio.flac;

/**
 * What the two subframes of a stereo frame hold, RFC 9639 section 9.1.3 and 4.2. A side channel has
 * one bit more.
 */
enum ChannelAssignment {
  MONO(0, 1),
  LEFT_RIGHT(1, 2),
  LEFT_SIDE(8, 2),
  SIDE_RIGHT(9, 2),
  MID_SIDE(10, 2);

  private static final ChannelAssignment[] BY_CODE = new ChannelAssignment[16];

  static {
    for (ChannelAssignment a : values()) {
      BY_CODE[a.code] = a;
    }
  }

  private final int code;
  private final int channels;

  ChannelAssignment(int code, int channels) {
    this.code = code;
    this.channels = channels;
  }

  int code() {
    return code;
  }

  int channels() {
    return channels;
  }

  /** The subframe that holds left minus right, or -1. */
  int sideSubframe() {
    return switch (this) {
      case MONO, LEFT_RIGHT -> -1;
      case LEFT_SIDE, MID_SIDE -> 1;
      case SIDE_RIGHT -> 0;
    };
  }

  static ChannelAssignment ofCode(int code) throws DamagedFrameException {
    if (BY_CODE[code] != null) {
      return BY_CODE[code];
    }
    throw new DamagedFrameException(
        code > MID_SIDE.code
            ? "the frame header names the reserved channel assignment " + code
            : "the frame has " + (code + 1) + " channels, and only mono and stereo are taken");
  }

  /** Left and right to what the subframes hold; not for sides wider than 32 bits. */
  void split(int[] left, int[] right, int[] first, int[] second, int count) {
    switch (this) {
      case MONO -> System.arraycopy(left, 0, first, 0, count);
      case LEFT_RIGHT -> {
        System.arraycopy(left, 0, first, 0, count);
        System.arraycopy(right, 0, second, 0, count);
      }
      case LEFT_SIDE -> {
        System.arraycopy(left, 0, first, 0, count);
        for (int i = 0; i < count; i++) {
          second[i] = left[i] - right[i];
        }
      }
      case SIDE_RIGHT -> {
        for (int i = 0; i < count; i++) {
          first[i] = left[i] - right[i];
        }
        System.arraycopy(right, 0, second, 0, count);
      }
      case MID_SIDE -> {
        for (int i = 0; i < count; i++) {
          second[i] = left[i] - right[i];
          first[i] = (int) ((long) left[i] + right[i] >> 1);
        }
      }
    }
  }

  /** What the subframes hold to left (in {@code first}) and right (in {@code second}), in place. */
  void join(int[] first, int[] second, int count) {
    switch (this) {
      case MONO, LEFT_RIGHT -> {}
      case LEFT_SIDE -> {
        for (int i = 0; i < count; i++) {
          second[i] = first[i] - second[i];
        }
      }
      case SIDE_RIGHT -> {
        for (int i = 0; i < count; i++) {
          first[i] = first[i] + second[i];
        }
      }
      case MID_SIDE -> {
        // twice the mid may need 33 bits, but its low 32 suffice: left and right fit 32
        for (int i = 0; i < count; i++) {
          int side = second[i];
          int right = first[i] - (side >> 1);
          second[i] = right;
          first[i] = right + side;
        }
      }
    }
  }

  /**
   * As {@link #join} with a side of up to 33 bits given apart.
   *
   * @return whether left and right fit 32 bits
   */
  boolean joinWide(int[] first, int[] second, long[] side, int count) {
    long lost = 0;
    for (int i = 0; i < count; i++) {
      long s = side[i];
      long right =
          switch (this) {
            case LEFT_SIDE -> first[i] - s;
            case SIDE_RIGHT -> second[i];
            default -> first[i] - (s >> 1);
          };
      long left = right + s;
      lost |= left ^ (int) left | right ^ (int) right;
      first[i] = (int) left;
      second[i] = (int) right;
    }
    return lost == 0;
  }
}
