package org.groovemend.cli;

/**
 * What a person asked for cannot be: a wrong value, an unknown key, a combination that makes no
 * sense.
 */
final class UsageException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  UsageException(String message) {
    super(message);
  }
}
