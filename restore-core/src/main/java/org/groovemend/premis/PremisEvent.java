package org.groovemend.premis;

import java.util.List;

/**
 * Something that happened to files.
 *
 * @param identifier within the document
 * @param dateTime ISO 8601 in UTC
 * @param detail in words, or ""
 * @param outcome one word, or ""
 * @param note more about the outcome, or ""
 * @param agents who took part
 * @param objects which files
 */
public record PremisEvent(
    String identifier,
    Type type,
    String dateTime,
    String detail,
    String outcome,
    String note,
    List<Link> agents,
    List<Link> objects) {

  /** Terms of the vocabulary for eventType that are used here. */
  public enum Type {
    CREATION("creation"),
    MODIFICATION("modification"),
    MESSAGE_DIGEST_CALCULATION("message digest calculation"),
    FIXITY_CHECK("fixity check"),
    SIGNATURE_GENERATION("digital signature generation"),
    SIGNATURE_VALIDATION("digital signature validation");

    private final String term;

    Type(String term) {
      this.term = term;
    }

    public String term() {
      return term;
    }
  }

  /**
   * @param identifier of an agent or object of the same document
   * @param role in the event
   */
  public record Link(String identifier, String role) {}

  public PremisEvent {
    agents = List.copyOf(agents);
    objects = List.copyOf(objects);
  }
}
