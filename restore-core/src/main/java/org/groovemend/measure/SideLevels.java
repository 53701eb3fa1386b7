package org.groovemend.measure;

import java.util.List;

/**
 * What a side measures as a whole.
 *
 * @param channels per channel
 * @param usedBits bits that ever change in the words of an integer format: 16 in a 24-bit file
 *     tells of a 16-bit source; 0 if every word is zero; the container's bits for float formats
 * @param longestSilenceFrames longest stretch in which every channel is exactly zero
 * @param longestSilenceStart where it begins
 * @param leadingSilenceFrames frames of exact zero at the beginning
 * @param trailingSilenceFrames frames of exact zero at the end
 * @param longestInnerSilenceFrames longest stretch of zeros with sound before and behind it
 * @param longestInnerSilenceStart where that begins, 0 if there is none
 */
public record SideLevels(
    List<ChannelLevels> channels,
    int usedBits,
    long longestSilenceFrames,
    long longestSilenceStart,
    long leadingSilenceFrames,
    long trailingSilenceFrames,
    long longestInnerSilenceFrames,
    long longestInnerSilenceStart) {

  /** True if every sample is zero. */
  public boolean silent() {
    return channels.stream().allMatch(level -> level.peakDbfs() == Double.NEGATIVE_INFINITY);
  }
}
