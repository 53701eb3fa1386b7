package org.groovemend.audio.flac;

/** How a subframe holds its channel, RFC 9639 section 9.2.1. */
enum SubframeType {
  /** One value for the whole block. */
  CONSTANT(0),
  /** Every sample as it is. */
  VERBATIM(1),
  /** A polynomial predictor of order 0 to 4 and the residual. */
  FIXED(2),
  /** A linear predictor of order 1 to 32 and the residual. */
  LINEAR(3);

  private static final SubframeType[] TYPES = values();

  private final int recipeCode;

  SubframeType(int recipeCode) {
    this.recipeCode = recipeCode;
  }

  /** The number that stands for it in a recipe: docs/reference/flac-recipe.md; never to change. */
  int recipeCode() {
    return recipeCode;
  }

  /**
   * The type of a code.
   *
   * @param code 0 to 3
   */
  static SubframeType ofRecipeCode(int code) {
    for (SubframeType type : TYPES) {
      if (type.recipeCode == code) {
        return type;
      }
    }
    throw new IllegalArgumentException("recipe code " + code + " is outside 0 to 3");
  }
}
