/** A side cut into its bands. */
package org.groovemend.job.bands;
