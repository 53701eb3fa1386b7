package org.groovemend.job.deliver;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.FilePath;
import org.groovemend.bag.BagWriter;
import org.groovemend.bag.DigestAlgorithm;
import org.groovemend.chain.Progress;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.CopyLevel;
import org.groovemend.deliverable.CopyMeter;
import org.groovemend.deliverable.CopyWish;
import org.groovemend.deliverable.GainPlan;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.delivery.WholeFolder;
import org.groovemend.stage.Crew;

/**
 * Makes the copies of a recipe: a folder with every copy, its record, and what each was made
 * through; all of it or nothing. The transfers are only ever read.
 */
public final class Deliver {

  private final DeliverRequest request;
  private final Crew crew;
  private final Progress progress;
  private final List<String> remarks = new ArrayList<>();

  private Deliver(DeliverRequest request, Crew crew, Progress progress) {
    this.request = request;
    this.crew = crew;
    this.progress = progress;
  }

  /**
   * Does the whole job.
   *
   * @throws RequestRefusedException if what was asked for cannot be; nothing is written then
   * @throws org.groovemend.audio.InputRejectedException if a side cannot be taken
   * @throws org.groovemend.delivery.OutputExistsException if the folder exists
   * @throws IOException if reading or writing fails; nothing is left behind then
   */
  public static DeliverOutcome run(DeliverRequest request, Crew crew, Progress progress)
      throws IOException {
    return new Deliver(request, crew, progress).run();
  }

  private DeliverOutcome run() throws IOException {
    List<DeliverPlan.Planned> plan = DeliverPlan.of(request.recipe());
    Recipe recipe = request.recipe();
    List<Path> inputs = recipe.sides().stream().map(Recipe.Side::transfer).toList();
    Path out = request.out().toAbsolutePath().normalize();
    if (Files.exists(out, LinkOption.NOFOLLOW_LINKS) || out.getParent() == null) {
      throw new OutputExistsException(out);
    }
    List<DeliverOutcome.Copy> copies;
    try {
      if (recipe.bagInfo() == null) {
        try (WholeFolder folder = WholeFolder.open(out, false, inputs)) {
          copies = fill(folder.content(), plan);
          folder.commit();
        }
      } else {
        try (BagWriter bag =
            BagWriter.open(out, false, inputs, EnumSet.of(DigestAlgorithm.SHA256))) {
          recipe.bagInfo().forEach(bag::info);
          copies = fill(FilePath.folder(bag.payload(DeliverPlan.RECORD)), plan);
          bag.commit(LocalDate.ofInstant(request.now(), ZoneOffset.UTC), n -> {});
        }
      }
    } catch (IOException e) {
      throw WholeFolder.explained(e, out);
    }
    Path place = recipe.bagInfo() == null ? request.out() : request.out().resolve("data");
    return new DeliverOutcome(request.out(), place.resolve(DeliverPlan.RECORD), copies, remarks);
  }

  private List<DeliverOutcome.Copy> fill(Path folder, List<DeliverPlan.Planned> plan)
      throws IOException {
    Recipe recipe = request.recipe();
    boolean restored = recipe.copies().stream().anyMatch(w -> w.kind() == CopyKind.SERVICE);
    DeliverySidePreparation preparation =
        new DeliverySidePreparation(request, folder, crew, progress);
    List<DeliverySide> sides = new ArrayList<>();
    for (Recipe.Side side : recipe.sides()) {
      DeliverySide ready = preparation.prepare(side, restored);
      for (String remark : ready.remarks()) {
        remarks.add(ready.original().name() + ": " + remark);
      }
      sides.add(ready);
    }
    Map<CopyWish, List<GainPlan>> gains = gains(sides);
    CopyWriter writer = new CopyWriter(request, folder, crew, progress);
    List<DeliverOutcome.Copy> copies = new ArrayList<>();
    int next = 0;
    for (int s = 0; s < sides.size(); s++) {
      DeliverySide side = sides.get(s);
      List<DeliverOutcome.Copy> ofSide = new ArrayList<>();
      for (CopyWish wish : recipe.copies()) {
        String name = plan.get(next++).name();
        if (wish.kind() == CopyKind.PRESERVATION) {
          preparation.copy(side.asked().transfer(), name, side.original().sha256());
        }
        ofSide.addAll(writer.write(side, wish, name, gains.get(wish).get(s)));
      }
      CopyMetadata.write(folder, side, ofSide);
      copies.addAll(ofSide);
    }
    remarks.addAll(writer.remarks());
    DeliveryRecord.write(
        request, folder, sides, copies.stream().map(DeliverOutcome.Copy::file).toList());
    return copies;
  }

  /** The gain of each copy, side by side; what must be loud so is measured before it is written. */
  private Map<CopyWish, List<GainPlan>> gains(List<DeliverySide> sides) throws IOException {
    Map<CopyWish, List<GainPlan>> gains = new HashMap<>();
    for (CopyWish wish : request.recipe().copies()) {
      List<GainPlan> one = new ArrayList<>();
      CopyMeter meter = new CopyMeter();
      for (DeliverySide side : sides) {
        if (wish.loudness() == null) {
          one.add(GainPlan.stated(wish.gainDb()));
          continue;
        }
        if (!wish.loudness().perSet()) {
          meter = new CopyMeter();
        }
        measure(side, wish, meter);
        if (!wish.loudness().perSet()) {
          one.add(GainPlan.toLoudness(meter.finish(), wish.loudness()));
        }
      }
      if (wish.loudness() != null && wish.loudness().perSet()) {
        CopyLevel all = meter.finish();
        for (int s = 0; s < sides.size(); s++) {
          one.add(GainPlan.toLoudness(all, wish.loudness()));
        }
      }
      gains.put(wish, one);
    }
    return gains;
  }

  private void measure(DeliverySide side, CopyWish wish, CopyMeter meter) throws IOException {
    try (CopySource source = CopySource.open(side, wish)) {
      meter.begin(source.format().sampleRateHz(), source.format().channels());
      source.forEach(
          crew,
          (at, samples, count) -> {
            meter.accept(samples, count);
            progress.at("measuring", at + count, source.frames());
          });
    }
  }
}
