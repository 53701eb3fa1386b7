/**
 * What went wrong between groove and file: interruptions of the words, clipping, offset, empty
 * bits, missing band, repeated turns, an incomplete side.
 *
 * <p>Each meter takes the side once, block by block ({@link org.groovemend.transfer.BlockMeter}),
 * keeps what does not grow with length, and gives the same whatever the cut into blocks. What a
 * meter cannot tell it does not guess: a dropout of one sample in noise is as likely as any other
 * sample, and is not found.
 *
 * <p>Sources: "interstitial errors" (samples lost or repeated inside a recorder) after the
 * Interstitial Error Study of the US federal agencies' guidelines initiative, 2012-13, abstract;
 * the weighing of chance by counting is our own and stands beside each class. Measured figures:
 * docs/explanation/inspection.md.
 */
package org.groovemend.transfer;
