package org.groovemend.speed;

/** Where hum in a side comes from, as a person states it: only hum of the disc tells its speed. */
public enum HumSource {
  /** Not stated: hum is not asked. */
  UNKNOWN,
  /** Recorded with the music: it runs as fast or slow as the disc. */
  DISC,
  /** Of the transfer: it has the mains' frequency whatever the disc does. */
  REPLAY
}
