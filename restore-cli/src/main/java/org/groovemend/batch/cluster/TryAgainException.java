package org.groovemend.batch.cluster;

/** A side failed in a way that another attempt, perhaps elsewhere, may not meet. */
public final class TryAgainException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  TryAgainException(String message, Throwable cause) {
    super(message, cause);
  }
}
