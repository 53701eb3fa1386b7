/**
 * Linear prediction: autoregressive (AR) models of short pieces of sound, and the filters that
 * follow from them.
 *
 * <p>Convention: the prediction-error filter is {@code a[0] = 1, a[1..p]}, the residual {@code e[n]
 * = sum a[k] x[n-k]}. Texts that write {@code x[n] = sum phi[k] x[n-k] + e[n]} have {@code phi[k] =
 * -a[k]}. Reflection coefficients carry the sign of the partial autocorrelation: +0.9 for {@code
 * x[n] = 0.9 x[n-1] + e[n]}.
 *
 * <p>Sources: Levinson 1946 and Durbin 1960 (Toeplitz recursion); Burg 1975 (reflection by
 * reflection); Makhoul 1975, "Linear prediction: a tutorial review", Proc. IEEE 63(4). Loops are
 * written as long additions of scaled arrays, which the virtual machine turns into vector
 * instructions; it does not do so for sums.
 */
package org.groovemend.signal.predict;
