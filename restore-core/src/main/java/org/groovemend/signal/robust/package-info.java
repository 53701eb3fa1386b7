/**
 * Location and scale that a minority of wild values cannot move.
 *
 * <p>The median absolute deviation times 1.4826 estimates the standard deviation of a normal
 * distribution and stands up to 50 % outliers (Rousseeuw and Croux 1993, JASA 88, 1273-1283).
 */
package org.groovemend.signal.robust;
