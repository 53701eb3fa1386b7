package org.groovemend.batch;

/**
 * A side that is to be done.
 *
 * @param order what is asked for
 * @param output where its results go
 * @param key digest of what decides about its results, see {@link SideTask#key}
 * @param why it is to be done
 * @param begun whether an earlier run began it: what lies under its names is ours then
 * @param sha256 of the transfer whose results are there, made with the same key and version: if the
 *     file still has it, there is nothing to do; null if there are none
 * @param expectedSeconds of one thread
 * @param expectedBytes of its results
 */
public record PlannedSide(
    SideOrder order,
    OutputNames.Output output,
    String key,
    Why why,
    boolean begun,
    String sha256,
    double expectedSeconds,
    long expectedBytes) {

  /** Reasons to do a side. */
  public enum Why {
    /** It was never done. */
    NEW("never done"),
    /** It was begun and not finished. */
    UNFINISHED("begun, but not finished"),
    /** It failed before. */
    FAILED("failed before"),
    /** The transfer is another one now, or looks touched. */
    ORIGINAL("the original was touched"),
    /** What is asked for has changed. */
    TREATMENT("its treatment changed"),
    /** Another version of the program did it. */
    VERSION("done by another version"),
    /** Results are not there any more. */
    MISSING("results are missing"),
    /** A person wants it. */
    ASKED("asked for again");

    private final String words;

    Why(String words) {
      this.words = words;
    }

    /** For people. */
    public String words() {
      return words;
    }
  }
}
