package org.groovemend.fixity;

import java.io.IOException;

/** A record that cannot be used; the message is a sentence for people. */
public final class FixityRecordException extends IOException {

  private static final long serialVersionUID = 1;

  FixityRecordException(String message) {
    super(message);
  }
}
