/** The two groove walls of a side compared. */
package org.groovemend.job.walls;
