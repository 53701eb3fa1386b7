/**
 * A side as numbers: sample formats, words and doubles, readers, and the layout of a file around
 * its samples.
 *
 * <p>Words used throughout: a <em>frame</em> is one sample of every channel; positions are frame
 * indices from 0, ranges are half open. A <em>word</em> is a sample exactly as the file holds it,
 * sign-extended into a {@code long}. This room knows no other room of the project except {@code
 * signal}.
 */
package org.groovemend.audio;
