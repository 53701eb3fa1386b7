package org.groovemend.ledger;

import java.time.DateTimeException;
import java.time.Instant;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * The first line: what was treated, by what, and how.
 *
 * @param tool name of the program
 * @param toolVersion its version or build
 * @param createdUtc when the ledger was begun: ISO 8601 in UTC, such as 2026-03-01T12:00:00Z
 * @param environment where it ran
 * @param original the file that was treated
 * @param capturedThrough "riaa", "flat", "unknown" or another curve: how the transfer was made, as
 *     the person stated it
 * @param treatment every parameter, by name; values may be anything that is a JSON value or a
 *     record of such; as read back, numbers are {@code Long} or {@code Double}. A map is written in
 *     the order of its keys
 * @param stages the stages that ran, in order
 * @param wholeSignal true if one of them may change any sample; the original is then restored plus
 *     removed
 * @param dither what was added before requantising
 * @param parent the ledger this one descends from, null for a first treatment and in version 1
 */
public record LedgerHeader(
    String tool,
    String toolVersion,
    String createdUtc,
    Environment environment,
    FileFacts original,
    String capturedThrough,
    Map<String, Object> treatment,
    List<AppliedStage> stages,
    boolean wholeSignal,
    Dither dither,
    LedgerParent parent)
    implements LedgerRecord {

  /** Value of the field "format". */
  public static final String FORMAT = "groovemend-ledger";

  /** Version of the format that this room writes, and the highest it reads. */
  public static final int VERSION = 2;

  /** The first version that names a parent. */
  static final int VERSION_WITH_PARENT = 2;

  public LedgerHeader {
    Objects.requireNonNull(tool, "tool");
    Objects.requireNonNull(toolVersion, "toolVersion");
    Objects.requireNonNull(environment, "environment");
    Objects.requireNonNull(original, "original");
    Objects.requireNonNull(dither, "dither");
    if (!capturedThrough.matches("[a-z0-9][a-z0-9:/.,+-]{0,99}")) {
      throw new IllegalArgumentException(
          "capturedThrough "
              + capturedThrough
              + " is not riaa, flat, unknown, nor the name or numbers of another curve");
    }
    requireUtc(createdUtc);
    treatment = Collections.unmodifiableMap(new LinkedHashMap<>(treatment));
    stages = List.copyOf(stages);
    boolean anySignal = stages.stream().anyMatch(s -> s.kind().equals(AppliedStage.SIGNAL));
    if (anySignal != wholeSignal) {
      throw new IllegalArgumentException(
          "wholeSignal is " + wholeSignal + " but the stages are " + stages);
    }
  }

  /** Of a first treatment. */
  public LedgerHeader(
      String tool,
      String toolVersion,
      String createdUtc,
      Environment environment,
      FileFacts original,
      String capturedThrough,
      Map<String, Object> treatment,
      List<AppliedStage> stages,
      boolean wholeSignal,
      Dither dither) {
    this(
        tool,
        toolVersion,
        createdUtc,
        environment,
        original,
        capturedThrough,
        treatment,
        stages,
        wholeSignal,
        dither,
        null);
  }

  private static void requireUtc(String createdUtc) {
    try {
      if (createdUtc.endsWith("Z")) {
        Instant.parse(createdUtc);
        return;
      }
    } catch (DateTimeException notATime) {
      // told below
    }
    throw new IllegalArgumentException(
        "createdUtc " + createdUtc + " is not a time such as 2026-03-01T12:00:00Z");
  }
}
