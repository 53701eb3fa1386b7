package org.groovemend.job.deliver;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.CopyWish;
import org.groovemend.job.restore.CurvePlan;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.speed.SpeedCopy;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.resample.Resampled;
import org.groovemend.stage.StageId;

/**
 * Looks at the sides of a recipe before any work is done: which files would come of it, and what
 * cannot be.
 */
public final class DeliverPlan {

  /** Record of the whole delivery, in its folder. */
  public static final String RECORD = "delivery.json";

  private DeliverPlan() {}

  /**
   * A file that will be delivered.
   *
   * @param transfer of which side
   * @param wish what it is
   * @param name of the file; if it is cut to bands, each has its number before the extension
   * @param format of its samples
   * @param frames its length
   */
  public record Planned(
      Path transfer, CopyWish wish, String name, AudioFormat format, long frames) {}

  /**
   * Reads the headers of the sides.
   *
   * @throws RequestRefusedException if something cannot be as it is asked
   * @throws org.groovemend.audio.InputRejectedException if a side cannot be taken
   */
  public static List<Planned> of(Recipe recipe) throws IOException {
    if (recipe.sides().isEmpty()) {
      throw new RequestRefusedException(
          "no side is named; name one or more under \"sides\" or behind the recipe");
    }
    if (recipe.copies().isEmpty()) {
      throw new RequestRefusedException("no copy is wanted; name one or more under \"copies\"");
    }
    List<Planned> planned = new ArrayList<>();
    Map<String, String> taken = new HashMap<>();
    for (Recipe.Side side : recipe.sides()) {
      try (SideReader reader = SideFiles.open(side.transfer())) {
        LedgerNames names = LedgerNames.of(side.transfer(), reader.format().containerBits());
        for (String name :
            List.of(
                names.restored(),
                names.ledger(),
                names.removed(),
                names.report(),
                CopyMetadata.name(names.name()),
                RECORD)) {
          if (!name.equals(RECORD) || taken.isEmpty()) {
            take(name, side.transfer() + " and what comes with it", taken);
          }
        }
        requireSensible(side, recipe, reader);
        for (CopyWish wish : recipe.copies()) {
          Planned one = planned(side, wish, names.name(), reader);
          take(one.name(), "the copy " + wish.name() + " of " + side.transfer(), taken);
          take(sidecar(one.name()), "its record", taken);
          planned.add(one);
        }
      }
    }
    return planned;
  }

  /** The record beside a copy. */
  static String sidecar(String copy) {
    return copy + ".json";
  }

  /** Some disks take names that differ in case only for one. */
  private static void take(String name, String by, Map<String, String> taken) {
    String other = taken.putIfAbsent(name.toLowerCase(Locale.ROOT), by);
    if (other != null) {
      throw new RequestRefusedException(
          other
              + " and "
              + by
              + " would both be "
              + name
              + "; give copies different names, and sides that are called alike a delivery each");
    }
  }

  private static void requireSensible(Recipe.Side side, Recipe recipe, SideReader reader) {
    if (recipe.copies().stream().noneMatch(wish -> wish.kind() != CopyKind.PRESERVATION)) {
      return;
    }
    if (side.bands() == null && recipe.copies().stream().anyMatch(CopyWish::bands)) {
      throw new RequestRefusedException(
          side.transfer()
              + ": a copy is to be cut to bands, but nothing says how the side is; give it \"bands: find\", or a list of"
              + " them");
    }
    SpeedCopy.requireDriftWithin(side.speed(), reader);
    if (side.treatment() != null) {
      CurvePlan.requireSensible(side.treatment());
      if (side.treatment().has(StageId.CURVE)) {
        CurvePlan.requireRealisable(side.treatment().curve(), reader.format());
      }
    }
  }

  private static Planned planned(Recipe.Side side, CopyWish wish, String base, SideReader reader)
      throws IOException {
    AudioFormat own = reader.format();
    if (wish.kind() == CopyKind.PRESERVATION) {
      String file = FilePath.name(side.transfer());
      return new Planned(
          side.transfer(),
          wish,
          base + "." + wish.name() + file.substring(base.length()),
          own,
          reader.frames());
    }
    boolean joined = wish.kind() == CopyKind.SERVICE && CopySource.joins(side);
    int channels = joined ? 1 : own.channels();
    int rate = wish.rateHz() == 0 ? own.sampleRateHz() : wish.rateHz();
    long frames =
        Resampled.frames(
            side.speed().positions(own.sampleRateHz(), reader.frames(), rate), reader.frames());
    AudioFormat format = CopySource.format(own, wish, rate, channels, side.speed().neutral());
    String name = base + "." + wish.name() + "." + wish.container().key();
    Optional<String> hindrance = wish.container().hindrance(format, frames, side.tags());
    if (hindrance.isPresent()) {
      throw new RequestRefusedException(name + " cannot be written: " + hindrance.get());
    }
    return new Planned(side.transfer(), wish, name, format, frames);
  }
}
