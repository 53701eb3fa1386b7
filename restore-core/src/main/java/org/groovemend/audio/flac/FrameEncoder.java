package org.groovemend.audio.flac;

import java.io.IOException;
import java.util.Arrays;

/** Encodes blocks one at a time and decodes each again to see that it holds what was given. */
final class FrameEncoder {

  private final StreamInfo info;
  private final FramePlanner planner;
  private final FramePlan plan = new FramePlan();
  private final FrameWriter writer = new FrameWriter();
  private final FrameReader check;

  FrameEncoder(StreamInfo info) {
    this.info = info;
    this.planner = new FramePlanner(info.bits());
    this.check = new FrameReader(info);
  }

  /**
   * Encodes one frame; {@link #bytes()} and {@link #length()} give it.
   *
   * @throws IOException if the frame does not decode to the samples: a fault of this program or of
   *     the machine
   */
  void encode(long frameNumber, int[][] samples, int count) throws IOException {
    ChannelAssignment assignment = planner.chooseAssignment(samples, info.channels(), count);
    plan.header.set(info, frameNumber, count, assignment);
    write(samples, count, false);
    if (writer.length() > verbatimBytes(count)) {
      plan.header.set(
          info,
          frameNumber,
          count,
          info.channels() == 1 ? ChannelAssignment.MONO : ChannelAssignment.LEFT_RIGHT);
      write(samples, count, true);
    }
    verify(frameNumber, samples, count);
  }

  private void write(int[][] samples, int count, boolean verbatim) {
    writer.begin(plan, info.bits(), samples);
    for (int s = 0; s < info.channels(); s++) {
      if (verbatim) {
        plan.subframes[s].type = SubframeType.VERBATIM;
        plan.subframes[s].order = 0;
        plan.subframes[s].wastedBits = 0;
      } else {
        planner.choosePredictor(plan, s, writer.held(s), count);
        writer.dropWastedBits(s);
        planner.improvePredictor(plan, s, writer.held(s), count);
        int[] residual = writer.predict(s);
        if (planner.isWorseThanPolynomial(plan, s, residual, count)) {
          writer.predict(s);
        }
        planner.chooseCoding(plan, s, residual, count);
      }
      writer.write(s);
    }
    writer.end();
  }

  private int verbatimBytes(int count) {
    return FrameHeader.MAX_BYTES + 2 + info.channels() * (2 + (count * info.bits() + 7) / 8);
  }

  /** Compares what was encoded last with the samples it should hold. */
  void verify(long frameNumber, int[][] samples, int count) throws IOException {
    String what;
    try {
      int end = check.read(writer.bytes(), 0, writer.length());
      boolean same = end == writer.length() && check.frames() == count;
      for (int c = 0; same && c < info.channels(); c++) {
        same = Arrays.equals(samples[c], 0, count, check.samples[c], 0, count);
      }
      if (same) {
        return;
      }
      what = "it decodes to other samples";
    } catch (DamagedFrameException e) {
      what = e.getMessage();
    }
    throw new IOException(
        "FLAC frame " + frameNumber + " did not stand the check after encoding: " + what + ".");
  }

  byte[] bytes() {
    return writer.bytes();
  }

  int length() {
    return writer.length();
  }
}
