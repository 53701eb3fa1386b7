package org.groovemend.review.side;

import java.io.IOException;
import java.util.Comparator;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.Words;
import org.groovemend.ledger.Check;
import org.groovemend.lineage.Lineage;

/**
 * Reads the side once from front to back while the page is open already: gathers the {@link Peaks}
 * and proves by the digests of the ledger that both sides are what it speaks of.
 */
public final class SideScan implements Runnable {

  /** How far it is. */
  public enum State {
    READING,
    /** Every sample is the ledger's. */
    HOLDS,
    /** A file is another or was altered. */
    DIFFERS,
    /** A file could not be read. */
    FAILED
  }

  private static final int BLOCK_FRAMES = 1 << 14;

  private final ReviewSide side;
  private final Peaks peaks;
  private volatile State state = State.READING;
  private volatile String sentence = "";
  private volatile boolean stopped;

  public SideScan(ReviewSide side) {
    this.side = side;
    this.peaks = new Peaks(side.format().channels(), side.frames());
  }

  public WaveTiles tiles() {
    return new WaveTiles(side, peaks);
  }

  public State state() {
    return state;
  }

  /** What a person should know; empty while reading. */
  public String sentence() {
    return sentence;
  }

  /** Share of the side that was read, 0 to 1. */
  public double share() {
    return peaks.done() / (double) side.frames();
  }

  /** Ends {@link #run} soon. */
  public void stop() {
    stopped = true;
  }

  @Override
  public void run() {
    try {
      side.with(this::scan);
    } catch (IOException | RuntimeException e) {
      if (!stopped) {
        sentence = "The side cannot be read to its end: " + e.getMessage();
        state = State.FAILED;
      }
    }
  }

  private Void scan(BothSides sides) throws IOException {
    AudioFormat format = side.format();
    int channels = format.channels();
    SampleDigest beforeDigest = new SampleDigest(format);
    SampleDigest afterDigest = new SampleDigest(format);
    long[][] words = new long[channels][BLOCK_FRAMES];
    double[][] before = new double[channels][BLOCK_FRAMES];
    double[][] after = new double[channels][BLOCK_FRAMES];
    for (long at = 0; at < side.frames() && !stopped; at += BLOCK_FRAMES) {
      int n = (int) Math.min(BLOCK_FRAMES, side.frames() - at);
      sides.before().readWords(at, n, words, 0);
      beforeDigest.update(words, 0, n);
      toDoubles(words, before, n);
      sides.after().readWords(at, n, words, 0);
      afterDigest.update(words, 0, n);
      toDoubles(words, after, n);
      peaks.add(before, after, n);
    }
    if (!stopped) {
      judge(beforeDigest.hex(), afterDigest.hex());
    }
    return null;
  }

  private void toDoubles(long[][] words, double[][] out, int count) {
    for (int c = 0; c < out.length; c++) {
      Words.toDoubles(words[c], 0, out[c], 0, count, side.format());
    }
  }

  /** What a person should know of the ledgers that this one descends from; empty for none. */
  private String descent() throws IOException {
    List<Check> checks = Lineage.check(side.ledger(), side.parents());
    if (checks.isEmpty()) {
      return "";
    }
    return checks.stream()
        .filter(check -> check.outcome() != Check.Outcome.HOLDS)
        .min(Comparator.comparing(check -> check.outcome() == Check.Outcome.FAILS ? 0 : 1))
        .map(check -> " " + check.words())
        .orElse(" The ledgers that it descends from agree with it.");
  }

  private void judge(String before, String after) throws IOException {
    boolean afterHolds = after.equals(side.ledger().totals().restored().samplesSha256());
    boolean beforeHolds = before.equals(side.ledger().header().original().samplesSha256());
    if (afterHolds && beforeHolds) {
      sentence =
          side.rebuilt()
              ? "Every sample is the ledger's; the transfer was put together again and proved."
              : "Every sample of transfer and clean copy is the ledger's.";
      sentence += descent();
      state = State.HOLDS;
    } else {
      sentence =
          (afterHolds
                  ? side.rebuilt() ? "The transfer that was put together again" : "The transfer"
                  : "The clean copy")
              + " is not the one of this ledger, or was altered: close the review, and run groovemend verify.";
      state = State.DIFFERS;
    }
  }
}
