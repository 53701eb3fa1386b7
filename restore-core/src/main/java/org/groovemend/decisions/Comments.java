package org.groovemend.decisions;

import java.util.Objects;

/** What a comment may be. */
final class Comments {

  /** Enough for a page of writing; keeps the file small enough to be saved at each decision. */
  private static final int LONGEST = 4_000;

  private Comments() {}

  static void require(String comment) {
    Objects.requireNonNull(comment, "comment");
    if (comment.length() > LONGEST) {
      throw new IllegalArgumentException(
          "a comment of "
              + comment.length()
              + " characters is too long; "
              + LONGEST
              + " are possible");
    }
    for (int i = 0; i < comment.length(); i++) {
      if (Character.isSurrogate(comment.charAt(i))) {
        if (i + 1 < comment.length()
            && Character.isSurrogatePair(comment.charAt(i), comment.charAt(i + 1))) {
          i++;
        } else {
          throw new IllegalArgumentException("the comment has half a character at " + i);
        }
      }
    }
  }
}
