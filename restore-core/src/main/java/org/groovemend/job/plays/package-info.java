/**
 * Several plays or copies of one side: compared, merged, with the record of which came from which.
 */
package org.groovemend.job.plays;
