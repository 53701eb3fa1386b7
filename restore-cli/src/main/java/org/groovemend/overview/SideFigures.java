package org.groovemend.overview;

import java.util.List;

/**
 * What an overview keeps of a side.
 *
 * @param place within the collection
 * @param disc or null
 * @param side of the disc, or null
 * @param series or ""
 * @param state as in the catalogue
 * @param errorKind or null
 * @param error why it failed, or null
 * @param folder of its results below the output folder
 * @param name of its results
 * @param ledger name of its ledger, or null
 * @param values by {@link Measure#ordinal}; NaN if not known, or the side is not done
 * @param onsetEvidence how many standard deviations more repairs are at note onsets than by chance
 * @param notes what is to be told of it whatever the others are
 */
record SideFigures(
    String place,
    String disc,
    String side,
    String series,
    String state,
    String errorKind,
    String error,
    String folder,
    String name,
    String ledger,
    double[] values,
    double onsetEvidence,
    List<String> notes) {

  boolean done() {
    return state.equals("done");
  }

  double value(Measure measure) {
    return values[measure.ordinal()];
  }
}
