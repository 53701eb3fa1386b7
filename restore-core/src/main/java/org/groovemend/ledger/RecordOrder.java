package org.groovemend.ledger;

import java.util.Map;
import java.util.TreeMap;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.SampleCoding;

/**
 * What must hold between the lines of a ledger: their order, and that they fit each other. Writer
 * and reader both ask, so that nothing is written that would not be read.
 */
final class RecordOrder {

  private RecordKind last;
  private LedgerHeader header;
  private long records;
  private long edits;
  private long layoutFrames;
  private long lastStart;
  private int lastChannel;
  private final Map<String, Long> editsByStage = new TreeMap<>();

  long records() {
    return records;
  }

  /**
   * Null if the record may stand next, and it then counts as standing there; else what is wrong,
   * without a full stop.
   */
  String offer(LedgerRecord record) {
    RecordKind kind = RecordKind.of(record);
    String wrong = wrongPlace(kind);
    if (wrong == null) {
      wrong = wrongContent(record);
    }
    if (wrong == null) {
      last = kind;
      records++;
    }
    return wrong;
  }

  private String wrongPlace(RecordKind kind) {
    boolean fits =
        switch (kind) {
          case HEADER -> last == null;
          case CONTAINER -> last == RecordKind.HEADER || last == RecordKind.CONTAINER;
          case ANALYSIS -> last == RecordKind.CONTAINER || last == RecordKind.ANALYSIS;
          case EDIT ->
              last == RecordKind.CONTAINER
                  || last == RecordKind.ANALYSIS
                  || last == RecordKind.EDIT;
          case TOTALS ->
              last == RecordKind.CONTAINER
                  || last == RecordKind.ANALYSIS
                  || last == RecordKind.EDIT;
          case CLOSING -> last == RecordKind.TOTALS;
        };
    if (fits) {
      return null;
    }
    return "a record \""
        + kind.key()
        + "\" cannot "
        + (last == null ? "begin a ledger" : "follow a record \"" + last.key() + "\"");
  }

  private String wrongContent(LedgerRecord record) {
    if (record instanceof LedgerHeader h) {
      header = h;
      return null;
    } else if (record instanceof ContainerRecord c) {
      return wrongPiece(c.piece());
    } else if (record instanceof LedgerEdit e) {
      return wrongEdit(e);
    } else if (record instanceof LedgerTotals t) {
      return wrongTotals(t);
    } else if (record instanceof LedgerClosing c && c.records() != records + 1) {
      return "the closing record counts "
          + c.records()
          + " records, but it is number "
          + (records + 1);
    }
    return null;
  }

  private String wrongPiece(LayoutPiece piece) {
    long first;
    long frames;
    if (piece instanceof LayoutPiece.PcmFrames p) {
      first = p.firstFrame();
      frames = p.frames();
    } else if (piece instanceof LayoutPiece.FlacFrames f) {
      first = f.firstFrame();
      frames = f.frames();
    } else {
      return null;
    }
    // a file could hold a frame twice in theory; none that is read here does
    if (first != layoutFrames || frames < 0 || frames > header.original().frames() - first) {
      return "a container record holds frames "
          + first
          + " to "
          + (first + frames)
          + ", expected from "
          + layoutFrames
          + " on and not past "
          + header.original().frames();
    }
    layoutFrames += frames;
    return null;
  }

  private String wrongEdit(LedgerEdit edit) {
    FileFacts original = header.original();
    if (edit.number() != edits + 1) {
      return "edit " + edit.number() + " stands where edit " + (edits + 1) + " is due";
    }
    if (edit.channel() >= original.format().channels() || edit.end() > original.frames()) {
      return "edit "
          + edit.number()
          + " (channel "
          + edit.channel()
          + ", frames "
          + edit.start()
          + " to "
          + edit.end()
          + ") is outside the side of "
          + original.format().channels()
          + " channel(s) and "
          + original.frames()
          + " frames";
    }
    if (edit.original().length != edit.frames() * original.format().bytesPerSample()) {
      return "edit "
          + edit.number()
          + " holds "
          + edit.original().length
          + " bytes for "
          + edit.frames()
          + " words of "
          + original.format().bytesPerSample()
          + " bytes";
    }
    if (edits > 0
        && (edit.start() < lastStart
            || edit.start() == lastStart && edit.channel() < lastChannel)) {
      return "edit "
          + edit.number()
          + " (frame "
          + edit.start()
          + ", channel "
          + edit.channel()
          + ") must not follow one at frame "
          + lastStart
          + ", channel "
          + lastChannel;
    }
    edits++;
    lastStart = edit.start();
    lastChannel = edit.channel();
    editsByStage.merge(edit.stage(), 1L, Long::sum);
    return null;
  }

  private String wrongTotals(LedgerTotals totals) {
    if (layoutFrames != header.original().frames()) {
      return "the container records hold "
          + layoutFrames
          + " of "
          + header.original().frames()
          + " frames";
    }
    Map<String, Long> counted = new TreeMap<>(totals.editsByStage());
    counted.values().removeIf(n -> n == 0);
    if (totals.edits() != edits || !counted.equals(editsByStage)) {
      return "the totals count "
          + totals.edits()
          + " edits "
          + counted
          + ", the ledger holds "
          + edits
          + " "
          + editsByStage;
    }
    LedgerParent parent = header.parent();
    if (parent != null && edits != parent.edits() - parent.undone()) {
      return "the ledger holds "
          + edits
          + " edits, but of the "
          + parent.edits()
          + " of its parent "
          + parent.undone()
          + " were taken back";
    }
    if (!sameShape(header.original(), totals.restored())) {
      return "the restored file has another shape than the original: "
          + totals.restored()
          + ", "
          + header.original();
    }
    if ((totals.removed() != null) != header.wholeSignal()) {
      return header.wholeSignal()
          ? "a stage could change any sample, but the totals name no removed file"
          : "only repairs ran, but the totals name a removed file";
    }
    if (totals.removed() != null && !fitsRemoved(header.original(), totals.removed())) {
      return "the removed file has a shape that cannot hold the difference: " + totals.removed();
    }
    return null;
  }

  private static boolean sameShape(FileFacts original, FileFacts restored) {
    AudioFormat a = original.format();
    AudioFormat b = restored.format();
    return original.frames() == restored.frames()
        && a.sampleRateHz() == b.sampleRateHz()
        && a.channels() == b.channels()
        && a.coding() == b.coding()
        && a.containerBits() == b.containerBits();
  }

  private static boolean fitsRemoved(FileFacts original, FileFacts removed) {
    boolean split = original.format().containerBits() == 64;
    int bits = split ? 32 : original.format().containerBits();
    return removed.format().coding() == SampleCoding.PCM
        && removed.format().containerBits() == bits
        && removed.format().channels() == original.format().channels()
        && removed.frames() == (split ? 2 : 1) * original.frames();
  }
}
