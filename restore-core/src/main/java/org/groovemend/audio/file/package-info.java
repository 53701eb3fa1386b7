/**
 * Sides as files: reading and writing of WAV, RF64, BW64, AIFF and AIFF-C, opening a side of any
 * kind, and writing an original file again from its layout.
 *
 * <p>What stands around the samples matters as much as the samples: every chunk keeps its place and
 * its bytes, and {@link org.groovemend.audio.file.FileRebuilder} gives the file back bit for bit.
 * Files are opened for reading only; the one class that creates a file is {@link
 * org.groovemend.audio.file.WavWriter}.
 *
 * <p>Rules of reading. A header that only counts wrongly (RIFF size, sample count, byte rate, sizes
 * never filled in by an interrupted capture) is read on with a notice. A header that contradicts
 * itself about what the samples are, or announces more samples than the file holds, is refused in
 * one sentence: nobody can tell from the file which half is true.
 *
 * <p>Sources: Microsoft/IBM RIFF WAVE and WAVE_FORMAT_EXTENSIBLE (field order and values also read
 * in files written by two general audio programs), EBU Tech 3306 (RF64), ITU-R BS.2088 (BW64, from
 * memory), EBU Tech 3285 (bext), EBU R 98 (CodingHistory, from memory and public use), Apple AIFF
 * 1.3 and AIFF-C (from memory; checked against written files).
 *
 * <p>Limits: one or two channels; PCM in 16, 24 or 32 bits, float in 32 or 64; whole sample rates
 * from 8 to 384 kHz. The valid-bits field of a header is believed; whether the low bits are really
 * zero is for the survey of the side to see.
 */
package org.groovemend.audio.file;
