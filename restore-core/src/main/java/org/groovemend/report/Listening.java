package org.groovemend.report;

import java.util.List;

/**
 * The listening list.
 *
 * @param sentence how the clips were made, or why there are none
 * @param passages in the order to listen to them
 */
public record Listening(String sentence, List<Place> passages) {

  public Listening {
    passages = List.copyOf(passages);
  }

  /** There are no clips. */
  public static Listening none(String sentence) {
    return new Listening(sentence, List.of());
  }

  /**
   * A place to listen to.
   *
   * @param title why it is worth a listen
   * @param time from when to when, as it is to be printed
   * @param sentence what is there
   * @param clips versions of it
   */
  public record Place(String title, String time, String sentence, List<Sound> clips) {
    public Place {
      clips = List.copyOf(clips);
    }
  }

  /**
   * One clip.
   *
   * @param label what is heard
   * @param flac a FLAC file; not to be written to
   */
  public record Sound(String label, byte[] flac) {}
}
