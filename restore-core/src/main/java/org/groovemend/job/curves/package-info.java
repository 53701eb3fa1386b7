/**
 * Sheets that show a playback curve, or a pick-up and its load, and two curves compared on a side.
 */
package org.groovemend.job.curves;
