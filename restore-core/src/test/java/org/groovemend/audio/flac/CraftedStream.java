package org.groovemend.audio.flac;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.function.BiConsumer;

/** Makes FLAC files by hand, with blocks and decisions that our encoder would not choose. */
final class CraftedStream {

  final int rate;
  final int bits;
  final long[][] words;
  int[] blockSizes = {64};
  boolean variable;
  boolean unknownLength;
  boolean withoutMd5;

  /** Makes the predictors of a frame; the partitions are chosen afterwards unless it sets them. */
  BiConsumer<Integer, FramePlan> decide = (frame, plan) -> {};

  /** Changes the partitions once the residual is there. */
  BiConsumer<Integer, SubframePlan> partition = (frame, sub) -> {};

  CraftedStream(int rate, int bits, long[][] words) {
    this.rate = rate;
    this.bits = bits;
    this.words = words;
  }

  byte[] toBytes() {
    int total = words[0].length;
    int largest = Math.max(16, Arrays.stream(blockSizes).max().orElseThrow());
    SampleMd5 md5 = new SampleMd5(words.length, bits);
    md5.update(samples(0, total), total);
    StreamInfo info =
        new StreamInfo(
            largest,
            largest,
            0,
            0,
            rate,
            words.length,
            bits,
            unknownLength ? 0 : total,
            withoutMd5 ? new byte[16] : md5.digest());
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes("fLaC".getBytes(StandardCharsets.US_ASCII));
    out.writeBytes(new byte[] {(byte) 0x80, 0, 0, StreamInfo.BYTES});
    out.writeBytes(info.toBytes());
    int at = 0;
    for (int f = 0; at < total; f++) {
      int count = Math.min(blockSizes[f % blockSizes.length], total - at);
      out.writeBytes(frame(info, f, at, count));
      at += count;
    }
    return out.toByteArray();
  }

  private byte[] frame(StreamInfo info, int f, int at, int count) {
    int[][] samples = samples(at, count);
    FramePlan plan = new FramePlan();
    FramePlanner planner = new FramePlanner(bits);
    ChannelAssignment assignment = planner.chooseAssignment(samples, words.length, count);
    setHeader(plan, info, f, at, count, assignment);
    FrameWriter writer = new FrameWriter();
    writer.begin(plan, bits, samples);
    for (int s = 0; s < words.length; s++) {
      planner.choosePredictor(plan, s, writer.held(s), count);
    }
    decide.accept(f, plan);
    // the decisions may have changed what the subframes hold
    setHeader(plan, info, f, at, count, plan.header.assignment);
    writer.begin(plan, bits, samples);
    for (int s = 0; s < words.length; s++) {
      SubframePlan sub = plan.subframes[s];
      int[] residual = writer.predict(s);
      if (sub.hasResidual()) {
        new PartitionSearch().choose(sub, residual, count);
        partition.accept(f, sub);
      }
      writer.write(s);
    }
    writer.end();
    return Arrays.copyOf(writer.bytes(), writer.length());
  }

  private void setHeader(
      FramePlan plan, StreamInfo info, int f, int at, int count, ChannelAssignment assignment) {
    plan.header.set(info, variable ? at : f, count, assignment);
    if (variable) {
      plan.header.raw[1] |= 1;
    }
  }

  private int[][] samples(int at, int count) {
    int[][] samples = new int[2][count];
    for (int c = 0; c < words.length; c++) {
      for (int i = 0; i < count; i++) {
        samples[c][i] = (int) words[c][at + i];
      }
    }
    return samples;
  }

  /** Sets both checksums of a frame that was changed by hand and gives it. */
  static byte[] withChecksums(byte[] frame, int headerLength) {
    byte[] fixed = frame.clone();
    fixed[headerLength] = (byte) FrameCrc.crc8(fixed, 0, headerLength);
    int crc = FrameCrc.crc16(fixed, 0, fixed.length - 2);
    fixed[fixed.length - 2] = (byte) (crc >> 8);
    fixed[fixed.length - 1] = (byte) crc;
    return fixed;
  }
}
