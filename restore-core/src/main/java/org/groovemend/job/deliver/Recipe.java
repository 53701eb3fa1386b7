package org.groovemend.job.deliver;

import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.bands.BandWish;
import org.groovemend.deliverable.CopyWish;
import org.groovemend.deliverable.FileTags;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.side.TimeRange;
import org.groovemend.speed.TimeMap;
import org.groovemend.technical.Disc;

/**
 * What is to be delivered of which sides.
 *
 * @param sides one or more
 * @param copies wanted of every side, one or more
 * @param bagInfo labels and texts of the bag that the delivery is to be, null for a plain folder
 * @param ditherSeed of the copies' own dither; same seed, same bytes
 */
public record Recipe(
    List<Side> sides, List<CopyWish> copies, Map<String, String> bagInfo, long ditherSeed) {

  /** Version of the recipe file. */
  public static final int FILE_VERSION = 1;

  public Recipe {
    sides = List.copyOf(sides);
    copies = List.copyOf(copies);
    bagInfo = bagInfo == null ? null : Collections.unmodifiableMap(new LinkedHashMap<>(bagInfo));
  }

  /**
   * One side.
   *
   * @param transfer the original, only ever read
   * @param ledger of a restoration made before, its files beside it, or null to treat the side anew
   * @param treatment how, if there is no ledger
   * @param leadIn stated bare groove for that, or null
   * @param speed what is done to the time of objective and service copies
   * @param speedBasis where that comes from, words for people
   * @param tags of every copy but the preservation copy
   * @param disc what is stated of the disc, for the technical metadata
   * @param bands how copies are cut, or null
   */
  public record Side(
      Path transfer,
      Path ledger,
      Treatment treatment,
      TimeRange leadIn,
      TimeMap speed,
      String speedBasis,
      FileTags tags,
      Disc disc,
      BandWish bands) {}
}
