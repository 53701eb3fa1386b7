package org.groovemend.job.side;

/** What was asked for does not fit the side: something the person who asked can put right. */
public final class RequestRefusedException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  /**
   * @param reason a sentence for people: what does not fit and what would
   */
  public RequestRefusedException(String reason) {
    super(reason);
  }
}
