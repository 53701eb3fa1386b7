package org.groovemend.batch;

import java.time.Clock;
import java.time.Instant;
import java.util.function.BiFunction;
import org.groovemend.job.restore.ReportWish;

/**
 * How a run goes about its work.
 *
 * @param threads sides under work at once, at most, and threads in all
 * @param memoryBytes for all sides under work together
 * @param page the page wished for
 * @param version goes into ledgers and decides whether a side is done
 * @param replace true if files that no run has made may be replaced too
 * @param now goes into ledgers instead of the time; null for the time
 * @param clock for the catalogue and the log; durations are not taken from it
 * @param explain what went wrong, of which side, for people
 * @param bags in which transfers lie
 */
public record BatchSettings(
    int threads,
    long memoryBytes,
    ReportWish page,
    String version,
    boolean replace,
    Instant now,
    Clock clock,
    BiFunction<Throwable, SideOrder, SideFailure> explain,
    BagGuard bags) {}
