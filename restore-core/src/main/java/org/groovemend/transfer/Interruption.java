package org.groovemend.transfer;

import java.util.Locale;

/**
 * Words that no groove has written.
 *
 * @param kind what happened
 * @param channel 0 based, or -1 for all channels at once
 * @param frame first frame concerned
 * @param frames how many
 * @param lag for {@link Kind#REPEATED}: how many frames earlier the same words stand, else 0
 * @param nats natural logarithm of how much less likely chance is than this explanation, before
 *     counting how often chance had a try
 */
public record Interruption(Kind kind, int channel, long frame, long frames, long lag, double nats) {

  /** What happened to the words. */
  public enum Kind {
    /** Exactly zero in the middle of sound. */
    ZEROED,
    /** One word held. */
    HELD,
    /** A block that stands a second time. */
    REPEATED;

    public String key() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
