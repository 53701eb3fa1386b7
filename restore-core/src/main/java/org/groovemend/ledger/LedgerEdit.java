package org.groovemend.ledger;

import java.util.Arrays;
import java.util.Objects;

/**
 * One repaired range of one channel. Frames count from 0, ranges are half open.
 *
 * @param number 1, 2, 3 ... in the order of the ledger: by start, then by channel
 * @param stage key of the stage that made it
 * @param channel 0 based
 * @param start first changed frame
 * @param end one past the last changed frame
 * @param statistic what the detector measured, in the stage's documented unit; NaN if nothing was
 *     measured
 * @param threshold the value it had to exceed; NaN if there was none
 * @param method how the range was filled
 * @param modelOrder order of the autoregressive model, 0 if none
 * @param gapStart first frame taken as unknown
 * @param gapFrames frames taken as unknown
 * @param uncertaintyDbfs root mean square of the expected error, dB re full scale; NaN if unknown
 * @param before SHA-256 of {@code original}
 * @param after SHA-256 of the restored file's words in the range, laid out likewise
 * @param original the original file's words in the range, each in containerBits / 8 bytes, little
 *     end first. Where edits overlap, each holds what the original <em>file</em> holds. Not copied:
 *     not to be changed by either side
 */
public record LedgerEdit(
    long number,
    String stage,
    int channel,
    long start,
    long end,
    double statistic,
    double threshold,
    String method,
    int modelOrder,
    long gapStart,
    long gapFrames,
    double uncertaintyDbfs,
    String before,
    String after,
    byte[] original)
    implements LedgerRecord {

  public LedgerEdit {
    Objects.requireNonNull(stage, "stage");
    Objects.requireNonNull(method, "method");
    Objects.requireNonNull(original, "original");
    if (number < 1 || channel < 0 || channel > 1 || start < 0 || end <= start) {
      throw new IllegalArgumentException(
          "edit "
              + number
              + " of channel "
              + channel
              + " from "
              + start
              + " to "
              + end
              + " is no range");
    }
    if (modelOrder < 0 || gapStart < 0 || gapFrames < 0) {
      throw new IllegalArgumentException(
          "edit "
              + number
              + ": order "
              + modelOrder
              + ", gap from "
              + gapStart
              + ", "
              + gapFrames
              + " frames: one is negative");
    }
    if (original.length % (end - start) != 0 || original.length == 0) {
      throw new IllegalArgumentException(
          "edit "
              + number
              + ": "
              + original.length
              + " bytes for "
              + (end - start)
              + " original words");
    }
    Sha256.requireHex(before, "before");
    Sha256.requireHex(after, "after");
  }

  public long frames() {
    return end - start;
  }

  /** Where it is, for people. */
  public String place() {
    return "edit "
        + number
        + " ("
        + stage
        + ", channel "
        + channel
        + ", frames "
        + start
        + " to "
        + end
        + ")";
  }

  /** The same repair where others were taken back, so that it has another number and outcome. */
  public LedgerEdit withNumberAndAfter(long otherNumber, String otherAfter) {
    return new LedgerEdit(
        otherNumber,
        stage,
        channel,
        start,
        end,
        statistic,
        threshold,
        method,
        modelOrder,
        gapStart,
        gapFrames,
        uncertaintyDbfs,
        before,
        otherAfter,
        original);
  }

  /** Edits are equal if all their fields are, the original words byte for byte. */
  @Override
  public boolean equals(Object other) {
    return other instanceof LedgerEdit e
        && number == e.number
        && stage.equals(e.stage)
        && channel == e.channel
        && start == e.start
        && end == e.end
        && Double.compare(statistic, e.statistic) == 0
        && Double.compare(threshold, e.threshold) == 0
        && method.equals(e.method)
        && modelOrder == e.modelOrder
        && gapStart == e.gapStart
        && gapFrames == e.gapFrames
        && Double.compare(uncertaintyDbfs, e.uncertaintyDbfs) == 0
        && before.equals(e.before)
        && after.equals(e.after)
        && Arrays.equals(original, e.original);
  }

  @Override
  public int hashCode() {
    return Objects.hash(number, stage, channel, start, end, before, after);
  }
}
