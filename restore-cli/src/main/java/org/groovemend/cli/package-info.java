/**
 * The command line: reads options, builds a request, calls a job, renders the answer. No arithmetic
 * on sound.
 *
 * <p>Results go to standard output, everything else to standard error.
 */
package org.groovemend.cli;
