package org.groovemend.batch;

import java.io.IOException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.Words;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.EditReader;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.measure.OnsetTimes;

/**
 * Whether repairs follow the beat: how many of them begin where a note begins, against how many
 * would by chance. Damage of a disc knows nothing of the music; a detector that takes drum strokes
 * for clicks does.
 *
 * <p>Notes are looked for in the clean copy, where ticks are gone. A repair is at an onset if it
 * begins within 20 ms of it. What chance would do is reckoned for each repair from the share of the
 * four seconds around it that lies so near an onset, so that it matters neither that repairs are
 * many where the disc is worn nor that a busy passage has many notes: with p the shares, chance
 * gives the sum of p, with variance the sum of p (1 - p) (Poisson's binomial distribution).
 */
final class RepairsAtOnsets {

  private static final double NEAR_SECONDS = 0.02;
  private static final double AROUND_SECONDS = 2;

  /** Repairs that begin so near one another are one blow, on whichever channel. */
  private static final double TOGETHER_SECONDS = 0.004;

  /** Fewer expected ones tell nothing. */
  private static final double LEAST_EXPECTED = 1;

  private static final int BLOCK = 1 << 14;

  private final Ledger ledger;
  private long[] onsets = new long[1024];
  private int count;

  private RepairsAtOnsets(Ledger ledger) {
    this.ledger = ledger;
  }

  /** Columns of the catalogue; reads the clean copy once. */
  static Map<String, Object> of(Ledger ledger, Progress progress) throws IOException {
    RepairsAtOnsets found = new RepairsAtOnsets(ledger);
    Map<String, Object> measures = new LinkedHashMap<>();
    if (ledger.totals().edits() > 0) {
      found.listen(progress);
      found.compare(measures);
    }
    return measures;
  }

  private void listen(Progress progress) throws IOException {
    try (SideReader side =
        SideFiles.open(ledger.path().resolveSibling(ledger.totals().restored().name()))) {
      AudioFormat format = side.format();
      OnsetTimes times = new OnsetTimes(format, groovePower(), this::onset);
      long[][] words = new long[format.channels()][BLOCK];
      double[][] samples = new double[format.channels()][BLOCK];
      for (long at = 0; at < side.frames(); at += BLOCK) {
        progress.at("onsets", at, side.frames());
        int n = (int) Math.min(BLOCK, side.frames() - at);
        side.readWords(at, n, words, 0);
        for (int c = 0; c < words.length; c++) {
          for (int i = 0; i < n; i++) {
            samples[c][i] = Words.toDouble(words[c][i], format);
          }
        }
        times.accept(samples, n);
      }
    }
  }

  private void onset(long frame) {
    if (count == onsets.length) {
      onsets = Arrays.copyOf(onsets, 2 * count);
    }
    onsets[count++] = frame;
  }

  /** Of the copy, or of the transfer if that alone was measured; 0 if neither. */
  private double groovePower() {
    for (AnalysisRecord record : ledger.analyses()) {
      if (record.name().equals("noiseFloor")) {
        for (String when : List.of("after", "before")) {
          Double level = SideMeasures.meanLevel(record.result().get(when));
          if (level != null) {
            return StrictMath.pow(10, level / 10);
          }
        }
      }
    }
    return 0;
  }

  private void compare(Map<String, Object> measures) throws IOException {
    int rate = ledger.header().original().format().sampleRateHz();
    long frames = ledger.totals().restored().frames();
    long near = Math.round(NEAR_SECONDS * rate);
    long around = Math.round(AROUND_SECONDS * rate);
    long together = Math.round(TOGETHER_SECONDS * rate);
    long last = Long.MIN_VALUE / 2;
    long left = 0;
    long hits = 0;
    double expected = 0;
    double variance = 0;
    int from = 0;
    int to = 0;
    try (EditReader edits = ledger.edits()) {
      for (LedgerEdit edit = edits.next(); edit != null; edit = edits.next()) {
        left += edit.channel() == 0 ? 1 : 0;
        long at = edit.start();
        if (at - last <= together) {
          continue;
        }
        last = at;
        while (from < count && onsets[from] < at - around) {
          from++;
        }
        while (to < count && onsets[to] <= at + around) {
          to++;
        }
        double length = Math.min(frames, at + around) - Math.max(0, at - around);
        // onsets are at least 50 ms apart, so what is near one is near no other
        double p = Math.min(1, (to - from) * (2.0 * near + 1) / Math.max(1, length));
        expected += p;
        variance += p * (1 - p);
        hits += isNear(at, near) ? 1 : 0;
      }
    }
    if (ledger.header().original().format().channels() == 2) {
      measures.put("edits_left_share", left / (double) ledger.totals().edits());
    }
    measures.put("onsets", (long) count);
    if (expected >= LEAST_EXPECTED && variance > 0) {
      measures.put("repairs_on_onsets", hits / expected);
      measures.put("repairs_on_onsets_z", (hits - expected) / Math.sqrt(variance));
    }
  }

  private boolean isNear(long frame, long near) {
    int at = Arrays.binarySearch(onsets, 0, count, frame - near);
    int first = at >= 0 ? at : -at - 1;
    return first < count && onsets[first] <= frame + near;
  }
}
