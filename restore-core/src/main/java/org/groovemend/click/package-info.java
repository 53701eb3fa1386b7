/**
 * Clicks: short damage found by evidence and filled by least squares, every other sample left as it is.
 *
 * <p>Way of a sample: a transfer made through the playback curve is taken back through it, because clicks are short there; an
 * autoregressive model is fitted to blocks on the side's own grid; places where its forward, backward or two-sided error
 * stands out become candidates; {@code ClickEvidence} weighs each against what music does; the threshold
 * comes from the tail of that statistic on this very side ({@link org.groovemend.click.ClickAnalyser}); the gap is filled with
 * the samples of least residual energy under a model of order 256 fitted in rounds, its end being where further samples no longer pay; what is removed goes forward through the curve again and is
 * subtracted until it stays under half an output step.
 *
 * <p>Sources: Vaseghi 1988 and Vaseghi and Rayner 1990 (residual and matched filter); Godsill and Rayner 1998, "Digital audio
 * restoration" (drop in residual energy as a test); Janssen, Veldhuis and Vries 1986, IEEE TASSP 34(2) (interpolation);
 * Pickands 1975 (tail). The weights in the evidence are this project's own.
 *
 * <p>Limits: one excitation per place is assumed, hence a stroke on a string or key that excites the whole spectrum at one
 * instant may be taken for a click; damage longer than the longest repair is left; dense crackle and thumps are other stages'
 * work; an unstated capture curve counts as flat. {@code Repair.Evidence}: statistic and threshold are in the evidence's unit,
 * roughly standard deviations; a place carried by the other channel may lie below the threshold, down to 0.4 of it; the
 * method is "lsar".
 */
package org.groovemend.click;
