/** The side before and after: edits, waveforms, spectrograms, short sounds, proof by digests. */
package org.groovemend.review.side;
