package org.groovemend.batch;

import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.IdentityHashMap;
import java.util.Map;
import org.groovemend.job.restore.Treatment;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.Sha256;
import org.groovemend.sealed.CanonicalJson;

/**
 * Digests of treatments: two that differ only in settings of stages which neither applies have the
 * same.
 */
final class TreatmentDigests {

  private static final TypeReference<Map<String, Object>> MAP = new TypeReference<>() {};

  private final ObjectMapper mapper = new ObjectMapper();

  /** Sides of one series share one treatment; looking for an equal one would take longer. */
  private final Map<Treatment, String> known = new IdentityHashMap<>();

  /** Whether a ledger was made with this treatment. */
  boolean sameAs(Treatment treatment, Ledger ledger) {
    return of(treatment).equals(Sha256.of(CanonicalJson.bytes(ledger.header().treatment())));
  }

  String of(Treatment treatment) {
    return known.computeIfAbsent(
        treatment, t -> Sha256.of(CanonicalJson.bytes(mapper.convertValue(t.asMap(), MAP))));
  }
}
