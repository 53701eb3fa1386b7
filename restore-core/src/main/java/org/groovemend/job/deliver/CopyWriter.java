package org.groovemend.job.deliver;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.groovemend.chain.Progress;
import org.groovemend.deliverable.Container;
import org.groovemend.deliverable.CopyFile;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.CopyLevel;
import org.groovemend.deliverable.CopyMeter;
import org.groovemend.deliverable.CopyWish;
import org.groovemend.deliverable.FileTags;
import org.groovemend.deliverable.GainPlan;
import org.groovemend.ledger.FileFacts;
import org.groovemend.stage.Crew;
import org.groovemend.tags.TagField;
import org.groovemend.tags.Tags;

/** Writes the copies of a delivery, and beside each its record. */
final class CopyWriter {

  private final DeliverRequest request;
  private final Path folder;
  private final Crew crew;
  private final Progress progress;
  private final List<String> remarks = new ArrayList<>();

  CopyWriter(DeliverRequest request, Path folder, Crew crew, Progress progress) {
    this.request = request;
    this.folder = folder;
    this.crew = crew;
    this.progress = progress;
  }

  /** What a person should know of the copies so far. */
  List<String> remarks() {
    return remarks;
  }

  /**
   * One copy with its record, or its bands with theirs; a preservation copy lies there already.
   *
   * @throws RequestRefusedException if samples would have to be cut off at full scale
   */
  List<DeliverOutcome.Copy> write(DeliverySide side, CopyWish wish, String name, GainPlan gain)
      throws IOException {
    try (CopySource source = CopySource.open(side, wish)) {
      if (wish.kind() == CopyKind.PRESERVATION) {
        CopyPart whole = whole(name, source);
        DeliverOutcome.Copy copy =
            new DeliverOutcome.Copy(
                named(side.original(), name),
                wish.kind(),
                measured(source, List.of(whole)).get(0),
                0);
        CopyRecord.write(request, folder, side, wish, copy, null, gain, List.of());
        return List.of(copy);
      }
      List<CopyPart> parts = parts(side, wish, name, source);
      List<String> leftOut = pass(side, wish, name, gain, source, parts);
      if (wish.loudness() != null) {
        remarks.add(name + ": " + gain.words());
      }
      if (!leftOut.isEmpty()) {
        remarks.add(
            name
                + ": chunks that may count in frames were left out: "
                + String.join(", ", leftOut));
      }
      List<DeliverOutcome.Copy> copies = new ArrayList<>();
      for (CopyPart part : parts) {
        DeliverOutcome.Copy copy =
            new DeliverOutcome.Copy(
                part.facts(wish.container().words()), wish.kind(), part.level(), gain.gainDb());
        CopyRecord.write(request, folder, side, wish, copy, part.band(), gain, leftOut);
        copies.add(copy);
      }
      return copies;
    }
  }

  /** Returns names of chunks that were left out. */
  private List<String> pass(
      DeliverySide side,
      CopyWish wish,
      String name,
      GainPlan gain,
      CopySource source,
      List<CopyPart> parts)
      throws IOException {
    boolean wav = wish.container() == Container.WAV;
    CopyChunks chunks = wav ? CopyChunks.of(request, side, wish, source, gain) : null;
    // a bext chunk stands before the samples, and tells how loud they are
    List<CopyLevel> levels = wav ? measured(source, parts) : List.of();
    CopyPart.Opening opening =
        part ->
            CopyFile.create(
                part.path(),
                wish.container(),
                source.format(),
                part.frames(),
                wav
                    ? chunks.of(part, levels.get(parts.indexOf(part)).withGain(gain.gainDb()))
                    : List.of(),
                tags(side.asked().tags(), part.band()),
                crew);
    CopyPass pass =
        new CopyPass(
            name,
            parts,
            opening,
            source.format(),
            gain,
            request.recipe().ditherSeed(),
            crew,
            progress);
    boolean done = false;
    try {
      source.forEach(crew, pass);
      done = true;
    } finally {
      if (!done) {
        abandon(pass);
      }
    }
    pass.requireWhole();
    return wav ? chunks.leftOut() : List.of();
  }

  /** The file is of no use, and what it lacks is not what went wrong. */
  private static void abandon(CopyPass pass) {
    try {
      pass.abandon();
    } catch (IOException e) {
      // the trouble that came first is told
    }
  }

  private CopyPart whole(String name, CopySource source) {
    return new CopyPart(folder.resolve(name), null, 0, source.frames(), source.format());
  }

  private List<CopyPart> parts(DeliverySide side, CopyWish wish, String name, CopySource source) {
    if (!wish.bands()) {
      return List.of(whole(name, source));
    }
    List<CopyPart> parts = new ArrayList<>();
    for (CopyBand band : side.bands()) {
      long first = source.frameOf(band.firstFrame());
      long end = source.frameOf(band.endFrame());
      parts.add(
          new CopyPart(folder.resolve(band.fileName(name)), band, first, end, source.format()));
    }
    return parts;
  }

  private static FileTags tags(FileTags ofSide, CopyBand band) {
    if (band == null) {
      return ofSide;
    }
    Map<TagField, String> texts = new EnumMap<>(TagField.class);
    texts.putAll(ofSide.tags().values());
    texts.put(TagField.TRACK, String.valueOf(band.number()));
    texts.put(TagField.TRACKS, String.valueOf(band.of()));
    if (!band.title().isEmpty()) {
      texts.put(TagField.TITLE, band.title());
    }
    return new FileTags(new Tags(texts), ofSide.cover());
  }

  private static FileFacts named(FileFacts facts, String name) {
    return new FileFacts(
        name,
        facts.bytes(),
        facts.sha256(),
        facts.samplesSha256(),
        facts.frames(),
        facts.format(),
        facts.container());
  }

  /** How loud each part is, without gain. */
  private List<CopyLevel> measured(CopySource source, List<CopyPart> parts) throws IOException {
    List<CopyMeter> meters = new ArrayList<>();
    for (int i = 0; i < parts.size(); i++) {
      CopyMeter meter = new CopyMeter();
      meter.begin(source.format().sampleRateHz(), source.format().channels());
      meters.add(meter);
    }
    double[][] block = new double[source.format().channels()][0];
    source.forEach(
        crew,
        (at, samples, count) -> {
          for (int i = 0; i < parts.size(); i++) {
            int from = (int) (Math.max(at, parts.get(i).first()) - at);
            int to = (int) (Math.min(at + count, parts.get(i).end()) - at);
            if (from < to) {
              for (int c = 0; c < block.length; c++) {
                if (block[c].length < count) {
                  block[c] = new double[count];
                }
                System.arraycopy(samples[c], from, block[c], 0, to - from);
              }
              meters.get(i).accept(block, to - from);
            }
          }
          progress.at("measuring", at + count, source.frames());
        });
    return meters.stream().map(CopyMeter::finish).toList();
  }
}
