/**
 * What a person sees of a treatment: one self-contained page, and pictures of a side before and
 * after.
 *
 * <p>Pictures come from streams or bounded reads, so that a long side costs no more than a short
 * one: {@link org.groovemend.report.EnvelopeBuilder} (waveform), {@link
 * org.groovemend.report.Spectrogram} and {@link org.groovemend.report.EditDensityBuilder}; {@link
 * org.groovemend.report.Pictures} draws them as PNG. {@link org.groovemend.report.ReportPage}
 * writes the page from a {@link org.groovemend.report.ReportInput}: plain records, already put into
 * words and numbers by the caller. The page needs no script, no font and nothing from outside;
 * {@link org.groovemend.report.CollectionPage}, a page about many sides, has a script that sorts.
 *
 * <p>Level words: waveform levels are dBFS of a sample's magnitude, full scale 1.0 = 0 dBFS.
 * Spectrogram levels are dB re a full-scale sine, which reads 0 dB.
 *
 * <p>Limits: a waveform column shows the extremes of its time, a spectrogram column a sample of its
 * time on long sides (see {@link org.groovemend.report.Spectrogram#of}). Pixels of the spectrogram
 * are the same for the same Java run time and processor type; those of the other pictures
 * everywhere. PNG compression is the run time's.
 */
package org.groovemend.report;
