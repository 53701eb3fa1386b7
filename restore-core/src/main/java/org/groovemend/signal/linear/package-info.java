/**
 * Small linear systems with structure: banded symmetric positive definite, and Toeplitz. Checked
 * against a dense solver.
 */
package org.groovemend.signal.linear;
