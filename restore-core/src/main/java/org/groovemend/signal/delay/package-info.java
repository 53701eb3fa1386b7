/**
 * How much later one signal comes than another, from their spectra: maximum likelihood with weights
 * by coherence (Knapp and Carter 1976), and the bound on its variance.
 */
package org.groovemend.signal.delay;
