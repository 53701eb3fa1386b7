/**
 * Thumps: breaks of the groove that set stylus and arm ringing, parted from the music and taken
 * out.
 *
 * <p>A thump is a burst of a millisecond or two and a ring of 20 to 350 ms that falls in pitch and
 * in amplitude. The low band (below some 400 Hz, 2000 instants a second, symmetric filter) is
 * whitened by AR models of the music before and after, along the principal axes of the two
 * channels' excitations; places where a ring takes out much of what the models cannot foretell are
 * fitted by generalised least squares ({@code ThumpFit}), what the shape lacks is separated as the
 * second of two autoregressive sources ({@code Remainder}), the models are fitted anew to what is
 * left, and each place once more with its neighbours, drums among them, taken out. {@code
 * ThumpEvidence} weighs whether it is damage. The front is interpolated by the click room. The ring
 * is modelled in the signal as the file holds it, so it does not matter whether it went through a
 * playback curve.
 *
 * <p>Sources: Vaseghi 1988, "Algorithms for restoration of archived gramophone recordings" (thumps
 * as a click and a ring of the arm); Godsill and Rayner 1998, "Digital audio restoration" (two
 * autoregressive sources); Esquef, Biscainho and Valimaki 2003, JAES 51(6) (rings need not be
 * alike); Good 1950 (adding weights of evidence). The shape, the search and the weights are this
 * project's own, as docs/explanation/thumps.md tells.
 *
 * <p>Limits: a lone drum that falls below 40 Hz without a beater's noise is a thump by all that is
 * measured here; thumps under a bass drum are often missed; two thumps within 0.15 s are taken as
 * one; a ring with more than one mode is taken out in part. {@code Repair.Evidence}: statistic and
 * threshold are in decibans, ten times the common logarithm of the odds; the method is "thump"; the
 * gap is the interpolated front.
 */
package org.groovemend.thump;
