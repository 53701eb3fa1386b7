package org.groovemend.audit;

import java.util.List;
import java.util.Map;

/**
 * The outcome of an audit.
 *
 * @param verdict in one word
 * @param summary in one or two sentences
 * @param words what the ledger says of the words; null without a ledger
 * @param findings what became of the recording; empty with a ledger
 * @param differenceCount ranges in which they differ
 * @param differenceSamples samples in them that differ
 * @param byKind ranges by kind
 * @param differences the ranges, at most {@link DifferenceList#MOST} of those that are unexplained
 *     and as many that are
 * @param transfer third octaves of a filter; empty where none is needed
 * @param softLoud how soft and loud sound was lowered; empty where nothing was
 * @param restDbfs by channel, what the findings leave all through it, dB re full scale; empty with
 *     a ledger
 * @param soundDbfs largest sample in equal columns of time, dB re full scale
 * @param differenceDbfs largest difference in them; negative infinity for none
 */
public record AuditOutcome(
    Verdict verdict,
    String summary,
    WordAccount words,
    List<Finding> findings,
    long differenceCount,
    long differenceSamples,
    Map<String, Long> byKind,
    List<Difference> differences,
    List<TransferBand> transfer,
    List<SoftLoud> softLoud,
    List<Double> restDbfs,
    List<Double> soundDbfs,
    List<Double> differenceDbfs) {

  /** What is said in one word. */
  public enum Verdict {
    /** The files have the same SHA-256. */
    SAME_FILE,
    /** The samples have the same SHA-256, the files have not: other containers or tags. */
    SAME_SAMPLES,
    /** The ledger explains every word that differs. */
    EXPLAINED,
    /** It does not. */
    UNEXPLAINED,
    /** There is no ledger: what is told was measured. */
    MEASURED
  }

  /**
   * What a ledger says of the words.
   *
   * @param changed words that differ
   * @param explained of them
   * @param unexplained words that the ledger does not explain
   * @param alteredEdits numbers of edits whose words are not those logged, the first thousand
   * @param alteredCount how many
   */
  public record WordAccount(
      long changed, long explained, long unexplained, List<Long> alteredEdits, long alteredCount) {}

  public AuditOutcome {
    findings = List.copyOf(findings);
    differences = List.copyOf(differences);
  }

  /** Nothing differs. */
  static AuditOutcome same(Verdict verdict, String summary) {
    return new AuditOutcome(
        verdict, summary, null, List.of(), 0, 0, Map.of(), List.of(), List.of(), List.of(),
        List.of(), List.of(), List.of());
  }
}
