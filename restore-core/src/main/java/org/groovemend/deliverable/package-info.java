/**
 * Copies for use: which file forms hold which words, sound written into any of them and measured on
 * the way, the gain that brings it to a loudness, and records that carry their own seal.
 *
 * <p>Loudness after ITU-R BS.1770 and EBU R 128 (room {@code measure}). What a form cannot hold is
 * refused before anything is written; nothing is made smaller, mixed or cut off to make it fit.
 */
package org.groovemend.deliverable;
