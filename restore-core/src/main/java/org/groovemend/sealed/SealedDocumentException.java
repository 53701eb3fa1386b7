package org.groovemend.sealed;

import java.io.IOException;

/** A sealed document that is not as it was written; the message is a sentence for people. */
public final class SealedDocumentException extends IOException {

  private static final long serialVersionUID = 1L;

  public SealedDocumentException(String message) {
    super(message);
  }

  public SealedDocumentException(String message, Throwable cause) {
    super(message, cause);
  }
}
