package org.groovemend.transfer;

import java.util.List;

/**
 * How far up a file really sounds.
 *
 * @param told whether the side was long and loud enough to tell
 * @param edgeHertz where the spectrum falls like a wall, Hz; NaN if it does not
 * @param fallDb by how much it falls there
 * @param aboveDbfs level of all that lies above the edge, spread over the whole band as white noise
 *     would be, dB re full scale; NaN without an edge, negative infinity for nothing at all
 * @param aboveBits the depth of words whose rounding makes as much noise; NaN without an edge
 * @param sourceRatesHz common rates whose half that edge suits; empty for none or no edge
 */
public record BandEdge(
    boolean told,
    double edgeHertz,
    double fallDb,
    double aboveDbfs,
    double aboveBits,
    List<Integer> sourceRatesHz) {
  public BandEdge {
    sourceRatesHz = List.copyOf(sourceRatesHz);
  }

  /** Whether the spectrum falls like a wall well below half the rate. */
  public boolean found() {
    return !Double.isNaN(edgeHertz);
  }
}
