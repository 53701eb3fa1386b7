package org.groovemend.audit;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.WordSource;
import org.groovemend.ledger.Ledger;
import org.groovemend.stage.RangeReader;

/** The ways to audit; all only read. */
public final class Auditor {

  private Auditor() {}

  /** The files are the same, byte for byte. */
  public static AuditOutcome sameFile() {
    return AuditOutcome.same(
        AuditOutcome.Verdict.SAME_FILE, "Identical: both files have the same SHA-256.");
  }

  /** The samples are the same, the files are not. */
  public static AuditOutcome sameSamples() {
    return AuditOutcome.same(
        AuditOutcome.Verdict.SAME_SAMPLES,
        "The samples are identical: their SHA-256 is the same. The files are not: container, header or tags differ.");
  }

  /**
   * With a ledger whose original this is, and whose restored file has the derivative's shape.
   *
   * @param removed words of the removed file at full width; null if there is none to be had
   * @param proved the derivative's digest is the ledger's
   */
  public static AuditOutcome withLedger(
      Ledger ledger,
      WordSource original,
      WordSource derivative,
      WordSource removed,
      boolean proved,
      Watch watch)
      throws IOException {
    LedgerAudit a =
        LedgerAudit.of(
            ledger,
            original,
            derivative,
            removed,
            proved && removed == null && ledger.header().wholeSignal(),
            watch);
    boolean holds = a.unexplained() == 0 && a.alteredCount() == 0;
    Map<String, Long> kinds = new LinkedHashMap<>();
    a.explanations().counts().forEach((k, n) -> kinds.merge(k.name(), n, Long::sum));
    a.faults().counts().forEach((k, n) -> kinds.merge(k.name(), n, Long::sum));
    String altered =
        a.alteredCount() == 0
            ? ""
            : say(
                " %,d edit%s not hold the words that were logged.",
                a.alteredCount(), a.alteredCount() == 1 ? " does" : "s do");
    String summary =
        holds
            ? say(
                "Every one of the %,d samples that differ is explained by the ledger.", a.changed())
            : say(
                "%,d sample%s in %,d place%s not explained by the ledger; %,d of the %,d that differ are.%s",
                a.unexplained(),
                a.unexplained() == 1 ? "" : "s",
                a.faults().count(),
                a.faults().count() == 1 ? " is" : "s are",
                a.explained(),
                a.changed(),
                altered);
    return new AuditOutcome(
        holds ? AuditOutcome.Verdict.EXPLAINED : AuditOutcome.Verdict.UNEXPLAINED,
        summary,
        new AuditOutcome.WordAccount(
            a.changed(), a.explained(), a.unexplained(), a.alteredEdits(), a.alteredCount()),
        List.of(),
        a.explanations().count() + a.faults().count(),
        a.explanations().samples() + a.faults().samples(),
        kinds,
        a.list(),
        List.of(),
        List.of(),
        List.of(),
        boxed(a.course().soundDbfs()),
        boxed(a.course().differenceDbfs()));
  }

  /**
   * By measurement.
   *
   * @param original its words
   * @param originalSound its samples
   * @return null if no passage of the derivative is found in the original
   */
  public static AuditOutcome measured(
      WordSource original,
      RangeReader originalSound,
      WordCensus originalWords,
      WordSource derivative,
      RangeReader derivativeSound,
      WordCensus derivativeWords,
      Watch watch)
      throws IOException {
    MeasuredAudit m = MeasuredAudit.of(originalSound, derivativeSound, derivativeWords, watch);
    if (m == null) {
      return null;
    }
    List<Finding> findings =
        Findings.of(
            m,
            new ComparedSides(
                original.format(),
                original.frames(),
                originalWords,
                derivative.format(),
                derivative.frames(),
                derivativeWords));
    Map<String, Long> kinds = new LinkedHashMap<>();
    m.differences().counts().forEach((k, n) -> kinds.put(k.name(), n));
    boolean varies =
        findings.stream()
            .anyMatch(
                f -> f.kind() == Finding.Kind.NOISE_REDUCTION || f.kind() == Finding.Kind.DYNAMICS);
    return new AuditOutcome(
        AuditOutcome.Verdict.MEASURED,
        findings.isEmpty()
            ? "No difference was found by measurement, but the digests differ: look at lengths and tags."
            : say(
                "By measurement: %d finding%s, %d range%s of local difference. Nothing here is proved by digests.",
                findings.size(),
                findings.size() == 1 ? "" : "s",
                m.differences().count(),
                m.differences().count() == 1 ? "" : "s"),
        null,
        findings,
        m.differences().count(),
        m.differences().samples(),
        kinds,
        m.differences().list(),
        m.transfer(),
        varies ? m.bands() : List.of(),
        boxed(m.floorDbfs()),
        boxed(m.course().soundDbfs()),
        boxed(m.course().differenceDbfs()));
  }

  private static String say(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  private static List<Double> boxed(double[] x) {
    return new ArrayList<>(Arrays.stream(x).boxed().toList());
  }
}
