package org.groovemend.review.door;

/** A request that is not answered, and why. */
public final class Refusal extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final int status;

  /**
   * @param status of HTTP (RFC 9110), 400 to 499
   * @param sentence for people; holds nothing of the request
   */
  public Refusal(int status, String sentence) {
    super(sentence);
    this.status = status;
  }

  public int status() {
    return status;
  }
}
