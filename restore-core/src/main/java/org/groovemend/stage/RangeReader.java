package org.groovemend.stage;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;

/**
 * The side as the stages before have left it, for analysers: any range, at any time, treated up to
 * here.
 *
 * <p>Cost is that of treating the range; an analyser should read what it needs once.
 */
public interface RangeReader {

  AudioFormat format();

  long frames();

  /**
   * Fills {@code into[channel][0...count)} with the samples from {@code firstFrame} on, full scale
   * 1.0.
   */
  void read(long firstFrame, int count, double[][] into) throws IOException;
}
