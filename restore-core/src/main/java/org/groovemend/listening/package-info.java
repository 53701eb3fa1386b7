/**
 * Places of a side that are worth a listen, and short clips of them before, after and of what was
 * removed.
 *
 * <p>Which places: the quietest passage, the loudest, the end and a fade are what a restoration is
 * heard on first (common practice, no source), and where most was repaired. How a passage is found
 * and where that fails is in {@link org.groovemend.listening.PassageFinder}. Changes nothing.
 */
package org.groovemend.listening;
