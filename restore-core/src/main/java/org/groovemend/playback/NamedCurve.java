package org.groovemend.playback;

/**
 * A historical curve as a choice.
 *
 * @param key what a person types
 * @param name as the source prints it
 * @param groove "coarse", "fine" or "any"
 * @param curve its time constants
 * @param status how the row is known
 * @param source where it is printed; may be empty
 * @param doubt what does not agree, a clause without full stop; may be empty
 */
public record NamedCurve(
    String key,
    String name,
    String groove,
    PlaybackCurve curve,
    Status status,
    String source,
    String doubt) {

  /** How a row of the table is known. */
  public enum Status {
    READ("read in the source"),
    COPY("from a secondary copy"),
    MEMORY("from memory, not checked against the source");

    private final String words;

    Status(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
