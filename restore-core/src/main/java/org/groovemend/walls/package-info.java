/**
 * The two groove walls of a side: how they agree, and one signal made of both.
 *
 * <p>A lateral groove gives both walls one signal, a vertical one the same with opposite sign, a
 * stereo groove two. {@link org.groovemend.walls.WallAnalyser} measures polarity, balance, the
 * delay of one wall behind the other and what the vertical part holds; {@link
 * org.groovemend.walls.MonoStage} aligns walls of a mono groove and weighs them by their noise.
 *
 * <p>Delay: maximum-likelihood phase slope (C. Knapp and G. C. Carter, "The generalized correlation
 * method for estimation of time delay", IEEE Trans. ASSP 24(4), 1976; variance of the phase of a
 * cross spectrum: G. C. Carter, Proc. IEEE 75(2), 1987). Balance: from how the walls swell
 * together, so that steady noise does not enter (O. Shalvi and E. Weinstein, "System identification
 * using nonstationary signals", IEEE Trans. SP 44(8), 1996). Weights: least variance under the
 * constraint that the music passes unchanged (O. L. Frost, Proc. IEEE 60(8), 1972; for two
 * measurements with correlated errors J. Bates and C. Granger, Operational Research Quarterly 20,
 * 1969), in the form of a canceller whose reference is the vertical part, which has no music (L.
 * Griffiths and C. Jim, IEEE Trans. AP 30(1), 1982). Papers cited from memory.
 *
 * <p>Limits: noise that is alike on both walls, hence lateral, cannot be told from music. Crosstalk
 * of a mono groove cannot be measured at all.
 */
package org.groovemend.walls;
