/**
 * What jobs share when they read a side: one survey pass, its hash, its words as they are stored,
 * the chunks that a copy carries over.
 */
package org.groovemend.job.side;
