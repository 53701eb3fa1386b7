package org.groovemend.bands;

/** A list of bands that cannot be followed; the message is a sentence for people. */
public final class BandListException extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  public BandListException(String sentence) {
    super(sentence);
  }
}
