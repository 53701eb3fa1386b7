package org.groovemend.job.side;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.measure.SideLevels;

/**
 * A side whose header says that low bits of its words are empty, while they are not: every bit is
 * taken for sound.
 */
public record WholeWords(WordSource side) implements WordSource {

  /** What to work on: the side itself, unless its samples use bits that its header calls empty. */
  public static WordSource of(WordSource side, SideLevels levels) {
    return contradicted(side.format(), levels) ? new WholeWords(side) : side;
  }

  public static boolean contradicted(AudioFormat format, SideLevels levels) {
    return levels.usedBits() > format.significantBits();
  }

  /** What a person should know of it. */
  public static String remark(AudioFormat format, SideLevels levels) {
    return "The header says that "
        + format.significantBits()
        + " of "
        + format.containerBits()
        + " bits carry sound, but the samples use "
        + levels.usedBits()
        + "; all "
        + format.containerBits()
        + " were taken for sound.";
  }

  @Override
  public AudioFormat format() {
    AudioFormat told = side.format();
    return AudioFormat.pcm(told.sampleRateHz(), told.channels(), told.containerBits());
  }

  @Override
  public long frames() {
    return side.frames();
  }

  @Override
  public void readWords(long firstFrame, int count, long[][] into, int offset) throws IOException {
    side.readWords(firstFrame, count, into, offset);
  }
}
