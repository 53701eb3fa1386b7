package org.groovemend.batch.cluster;

import java.io.IOException;

/** The engine cannot be used; the message is a sentence for people. */
public final class ClusterException extends IOException {

  private static final long serialVersionUID = 1L;

  public ClusterException(String message, Throwable cause) {
    super(message, cause);
  }
}
