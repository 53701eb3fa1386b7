package org.groovemend.audit;

/**
 * A range in which original and derivative differ.
 *
 * @param from first frame, of the derivative
 * @param to one past the last
 * @param channel of the derivative, from 0
 * @param kind what it looks like, or what the ledger says
 * @param changed samples of it that differ
 * @param peakDbfs largest difference, dB re full scale
 * @param rmsDbfs root mean square of the difference over the range
 * @param levelDb for a change of level: how much; else NaN
 * @param explanation what explains it: "edit 12 (clicks)"; {@link #UNEXPLAINED}; empty without a
 *     ledger
 */
public record Difference(
    long from,
    long to,
    int channel,
    Kind kind,
    long changed,
    double peakDbfs,
    double rmsDbfs,
    double levelDb,
    String explanation) {

  /** Nothing in the ledger explains it. */
  public static final String UNEXPLAINED = "unexplained";

  /** What a range looks like. */
  public enum Kind {
    /** At most 50 ms: as a repair of a click is, or a click put in. */
    LOCAL("local change"),
    /** The same sound, louder or softer. */
    LEVEL("level"),
    /** Silence where the original has sound. */
    SILENCED("silenced"),
    /** The tops of the sound are missing. */
    CLIPPED("clipped"),
    /** Longer than 50 ms, and not the same sound at another level. */
    REPLACED("other sound"),
    /** A range of an edit of the ledger. */
    EDIT("edit"),
    /** A stage of the ledger that may touch any sample. */
    STAGE("stage");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
