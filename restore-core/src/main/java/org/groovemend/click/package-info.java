/**
 * Clicks: short damage found by evidence and filled by least squares, every other sample left as it
 * is.
 *
 * <p>Way of a sample: a transfer made through the playback curve is taken back through it, because
 * clicks are short there; an autoregressive model is fitted to blocks on the side's own grid;
 * places where its forward, backward or two-sided error stands out become candidates; {@code
 * CandidateTraits} measures 31 traits of each, {@code WeightOfEvidence} turns them into log odds of
 * damage against music; a click found in one channel is sought in the other by its own shape; the
 * threshold comes from the tail of the log odds on this very side ({@link
 * org.groovemend.click.ClickAnalyser}); the gap is filled with the samples of least residual energy
 * under a model of order 256 fitted in rounds, its end being where further samples no longer pay,
 * and anew under a model by the length of the gap and, where it is sound, the other groove wall;
 * what is removed goes forward through the curve again and is subtracted until it stays under half
 * an output step.
 *
 * <p>Sources: Vaseghi 1988 and Vaseghi and Rayner 1990 (residual and matched filter); Godsill and
 * Rayner 1998, "Digital audio restoration" (drop in residual energy as a test); Janssen, Veldhuis
 * and Vries 1986, IEEE TASSP 34(2) (interpolation); Good 1950, "Probability and the weighing of
 * evidence" (adding weights); Itakura 1975, IEEE TASSP 23(1) (distance of models). The weights are
 * this project's own, fitted as docs/explanation/clicks.md tells.
 *
 * <p>Limits: one excitation per place is assumed, hence a stroke on a string or key that excites
 * the whole spectrum at one instant may be taken for a click; damage longer than the longest repair
 * is left; dense crackle and thumps are other stages' work; an unstated capture curve counts as
 * flat. {@code Repair.Evidence}: statistic and threshold are natural logarithms of odds; a place
 * supported by a click of the other channel needs 2.5 less, and one found by that click's shape
 * states half its matched energy above the least that counts, against 0; the method is "lsar", or
 * "lsar-other-wall" where the other groove wall was asked.
 */
package org.groovemend.click;
