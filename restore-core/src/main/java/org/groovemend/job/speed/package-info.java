/** A side put to its right speed: survey, copy, record. */
package org.groovemend.job.speed;
