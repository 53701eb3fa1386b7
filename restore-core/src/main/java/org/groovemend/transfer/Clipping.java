package org.groovemend.transfer;

import java.util.List;

/**
 * Clipping of one channel.
 *
 * @param runs flat runs at the channel's extreme
 * @param runsInMusic those of them that lie in sound as loud as they are, not in clicks
 * @param longest samples in the longest
 * @param levelDbfs where they lie; NaN if there is none
 * @param crowdedUpDbfs level just below which the highest extremes crowd, as behind an overloaded
 *     analogue stage; NaN if they do not
 * @param crowdedDownDbfs the same for the lowest
 * @param places the first runs
 */
public record Clipping(
    long runs,
    long runsInMusic,
    int longest,
    double levelDbfs,
    double crowdedUpDbfs,
    double crowdedDownDbfs,
    List<Place> places) {
  public Clipping {
    places = List.copyOf(places);
  }

  /**
   * One run.
   *
   * @param frame its first
   * @param frames how many
   * @param inMusic whether what surrounds it is as loud
   */
  public record Place(long frame, int frames, boolean inMusic) {}
}
