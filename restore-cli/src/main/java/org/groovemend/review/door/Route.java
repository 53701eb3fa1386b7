package org.groovemend.review.door;

import java.io.IOException;

/**
 * What answers to a path.
 *
 * @param method the only one that is answered
 * @param guarded true if the token is needed
 */
public record Route(String method, boolean guarded, Answer answer) {

  /**
   * Answers a request that was let in. An {@link IllegalArgumentException} tells that it asks for
   * what cannot be, an {@link IllegalStateException} that it cannot be now.
   */
  @FunctionalInterface
  public interface Answer {
    Reply to(Request request) throws IOException;
  }
}
