package org.groovemend.ledger;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.audio.WordSource;

/**
 * Compares original and restored sample by sample.
 *
 * @param changed words that differ
 * @param outside ranges that differ outside all edits
 */
record SideComparison(long changed, MismatchList outside) {

  static SideComparison of(Ledger ledger, WordSource original, WordSource restored)
      throws IOException {
    Run run = new Run(original.format().channels());
    try (EditsByPosition edits = new EditsByPosition(ledger)) {
      for (long first = 0; first < original.frames(); first += SideDigests.BLOCK_FRAMES) {
        int count = (int) Math.min(SideDigests.BLOCK_FRAMES, original.frames() - first);
        original.readWords(first, count, run.before, 0);
        restored.readWords(first, count, run.after, 0);
        run.compare(edits, first, count);
      }
    }
    return new SideComparison(run.changed, run.outside);
  }

  private static final class Run {
    private final long[][] before;
    private final long[][] after;
    private final boolean[][] edited;
    private final MismatchList outside = new MismatchList();
    private long changed;

    Run(int channels) {
      before = new long[channels][SideDigests.BLOCK_FRAMES];
      after = new long[channels][SideDigests.BLOCK_FRAMES];
      edited = new boolean[channels][SideDigests.BLOCK_FRAMES];
    }

    void compare(EditsByPosition edits, long first, int count) throws IOException {
      for (boolean[] channel : edited) {
        Arrays.fill(channel, false);
      }
      for (LedgerEdit edit : edits.reachingInto(first, first + count)) {
        int from = (int) (Math.max(first, edit.start()) - first);
        int to = (int) (Math.min(first + count, edit.end()) - first);
        for (int i = from; i < to; i++) {
          edited[edit.channel()][i] = true;
        }
      }
      for (int c = 0; c < before.length; c++) {
        compare(c, first, count);
      }
    }

    private void compare(int c, long first, int count) {
      for (int i = 0; i < count; i++) {
        if (before[c][i] != after[c][i]) {
          changed++;
          if (!edited[c][i]) {
            outside.add(
                new Mismatch(
                    "channel " + c + ", frame " + (first + i),
                    "word " + before[c][i] + " of the original",
                    String.valueOf(after[c][i])));
          }
        }
      }
    }
  }
}
