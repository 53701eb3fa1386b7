/** Copies for use made by a recipe, their records, and the way from a copy back to its original. */
package org.groovemend.job.deliver;
