package org.groovemend.job.restore;

import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CurveParameters;
import org.groovemend.playback.CurveStream;

/**
 * The transfer as it comes by, through the curve of the treatment, to compare the clean copy with.
 *
 * <p>Repaired places are bridged by a straight line first: behind the curve their damage would ring
 * on over samples that count.
 */
final class CurvedReference {
  private final CurveStream[] curves;
  private final double[] bridged;
  private final double[] last;
  private final double[][] out;

  CurvedReference(CurveParameters curve, AudioFormat format, int mostFrames) {
    curves = new CurveStream[format.channels()];
    for (int c = 0; c < curves.length; c++) {
      curves[c] = new CurveStream(curve, format.sampleRateHz(), mostFrames);
    }
    bridged = new double[mostFrames];
    last = new double[format.channels()];
    out = new double[format.channels()][mostFrames];
  }

  /** The next block behind the curve; overwritten by the one after. */
  double[][] next(double[][] original, boolean[][] inEdit, int count) {
    for (int c = 0; c < curves.length; c++) {
      bridge(c, original[c], inEdit[c], count);
      curves[c].next(bridged, out[c], count);
    }
    return out;
  }

  private void bridge(int c, double[] x, boolean[] inEdit, int count) {
    for (int i = 0; i < count; i++) {
      if (!inEdit[i]) {
        bridged[i] = x[i];
        last[c] = x[i];
        continue;
      }
      int end = i;
      while (end < count && inEdit[end]) {
        end++;
      }
      // one that reaches past the block goes on level
      double to = end < count ? x[end] : last[c];
      for (int k = i; k < end; k++) {
        bridged[k] = last[c] + (to - last[c]) * (k - i + 1) / (end - i + 1);
      }
      i = end - 1;
    }
  }
}
