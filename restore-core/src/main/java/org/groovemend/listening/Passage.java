package org.groovemend.listening;

/**
 * A stretch to listen to.
 *
 * @param kind why
 * @param startFrame first frame
 * @param endFrame end, exclusive
 * @param reason what was found there, a sentence for people
 */
public record Passage(Kind kind, long startFrame, long endFrame, String reason) {

  /** What makes a passage worth a listen, in the order of the list. */
  public enum Kind {
    QUIETEST("Quietest passage"),
    LOUDEST("Loudest passage"),
    FADE("A fade"),
    MOST_REPAIRS("Most repairs"),
    END("The end");

    private final String title;

    Kind(String title) {
      this.title = title;
    }

    public String title() {
      return title;
    }
  }

  public long frames() {
    return endFrame - startFrame;
  }

  /** The middle of it, or for the end its last part, at most {@code most} frames long. */
  public Passage shortened(long most) {
    if (frames() <= most) {
      return this;
    }
    long start = kind == Kind.END ? endFrame - most : startFrame + (frames() - most) / 2;
    return new Passage(kind, start, start + most, reason);
  }
}
