package org.groovemend.stage;

/**
 * Why a stage cannot be applied to a side: something about the side, never a fault of the program.
 */
public final class StageNotPossibleException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  /**
   * @param reason a sentence for people, without its full stop
   */
  public StageNotPossibleException(String reason) {
    super(reason);
  }
}
