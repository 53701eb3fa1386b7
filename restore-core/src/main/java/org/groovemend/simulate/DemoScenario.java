package org.groovemend.simulate;

/**
 * The invented story of the demonstration side. No such place, person, band, label or disc exists.
 */
public final class DemoScenario {

  public static final String COLLECTION = "Vennick Harbour Sound Cabinet (invented)";
  public static final String LABEL = "Brindlewax (invented)";
  public static final String MATRIX = "BXW 2041-1";
  public static final String PERFORMER = "Odo Tarnquill and his Ferry Pavilion Six (invented)";
  public static final String TITLE = "The Otter Borrowed My Umbrella";
  public static final String DISC =
      "coarse groove, lateral, 78.26 rpm, cut without a recording curve";
  public static final String TRANSFER =
      "flat (no playback curve), stereo pickup on a mono groove, 96 kHz";

  private DemoScenario() {}

  /** One line for a description field. */
  public static String line() {
    return PERFORMER + ": " + TITLE + ". " + LABEL + " " + MATRIX + ". " + DISC + ". " + TRANSFER;
  }
}
