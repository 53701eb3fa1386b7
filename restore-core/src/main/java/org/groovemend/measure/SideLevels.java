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
 */
public record SideLevels(
    List<ChannelLevels> channels,
    int usedBits,
    long longestSilenceFrames,
    long longestSilenceStart) {

  /** True if every sample is zero. */
  public boolean silent() {
    return channels.stream().allMatch(level -> level.peakDbfs() == Double.NEGATIVE_INFINITY);
  }
}
