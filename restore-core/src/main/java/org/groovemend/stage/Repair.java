package org.groovemend.stage;

/**
 * One repaired place: {@code removed} is subtracted from the channel from {@code start} on.
 *
 * @param channel 0 based
 * @param start first frame of the edit
 * @param removed what is taken away, full scale 1.0; its length is the length of the edit. A sample
 *     from which 0 is taken stays as it is; the last element is not 0
 * @param evidence why and how
 */
public record Repair(int channel, long start, double[] removed, Evidence evidence) {

  public long end() {
    return start + removed.length;
  }

  /**
   * Why a place was repaired and how.
   *
   * @param statistic the detector's statistic at the place, in the unit its stage documents
   *     (comparable with {@code threshold})
   * @param threshold the value it had to exceed
   * @param method how the place was filled: a short word documented by the stage, such as "lsar"
   * @param modelOrder order of the autoregressive model, 0 if none
   * @param gapStart first frame taken as unknown: the body of the damage, without its equalised
   *     tail
   * @param gapFrames frames taken as unknown
   * @param uncertaintyDbfs root mean square of the expected error of the fill in the gap, dB re
   *     full scale; NaN if unknown
   */
  public record Evidence(
      double statistic,
      double threshold,
      String method,
      int modelOrder,
      long gapStart,
      int gapFrames,
      double uncertaintyDbfs) {}
}
