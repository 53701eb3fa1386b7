package org.groovemend.batch;

import java.io.IOException;

/** The catalogue cannot be read or written; the message is a sentence for people. */
public final class CatalogueException extends IOException {

  private static final long serialVersionUID = 1L;

  CatalogueException(String message, Throwable cause) {
    super(message, cause);
  }

  CatalogueException(String message) {
    super(message);
  }
}
