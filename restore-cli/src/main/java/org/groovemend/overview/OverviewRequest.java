package org.groovemend.overview;

import java.nio.file.Path;
import java.time.Instant;
import java.util.function.UnaryOperator;

/**
 * What a person wants of an overview.
 *
 * @param folder output folder of the collection
 * @param confidence of the sample at random, between 0 and 1
 * @param tolerated share of bad sides that is still borne, between 0 and 1
 * @param seed of the draw
 * @param worst sides that are listed at most
 * @param byRisk sides that are to be heard because they are the worst
 * @param program that makes it, with its version
 * @param now when
 * @param review how a command line that reviews a ledger reads
 */
public record OverviewRequest(
    Path folder,
    double confidence,
    double tolerated,
    long seed,
    int worst,
    int byRisk,
    String program,
    Instant now,
    UnaryOperator<String> review) {

  /** Share and confidence unless others are wanted (common practice, no source). */
  public static final double CONFIDENCE = 0.95;

  public static final double TOLERATED = 0.05;
  public static final int WORST = 50;
  public static final int BY_RISK = 20;
}
