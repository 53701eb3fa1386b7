/**
 * How well would this work on my kind of music? Copies of undamaged sound are damaged as grooves
 * are, restored as a person would, and compared with the sound as it was.
 *
 * <p>Damage comes from {@link org.groovemend.simulate}, at a level tied to that of the music, read
 * through the RIAA playback curve ({@link org.groovemend.evaluate.DamagedCopy}); figures and their
 * sources: {@link org.groovemend.evaluate.Scorer}. Same sound, scenario and seed: same figures.
 *
 * <p>Limits: one model of damage, on extracts of at most a minute. Real damage has shapes it does
 * not know, and sound that was worn before it was damaged here counts as undamaged: every real
 * click in it that is repaired counts against the repair. Figures compare settings and kinds of
 * music; they are no promise for a disc.
 */
package org.groovemend.evaluate;
