/**
 * What is said of a side in its file: title, performer, label, matrix number and the like, and a
 * picture of the label.
 *
 * <p>Vorbis comments and PICTURE in FLAC, LIST INFO and ID3 2.4 in WAV and RF64, ID3 2.4 in AIFF.
 * The tag library codes in memory only; its own way of writing rewrites a file in place and refuses
 * RF64, so the parts go into the file with the samples, through this project's writers. The {@code
 * bext} chunk is not a tag of this room: see {@code audio.file.BroadcastExtension}.
 */
package org.groovemend.tags;
