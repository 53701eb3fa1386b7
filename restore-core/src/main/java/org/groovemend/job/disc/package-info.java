/** A side drawn as its disc lies. */
package org.groovemend.job.disc;
