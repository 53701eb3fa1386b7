/**
 * Pure arithmetic on arrays: knows no files, clocks, loggers or threads, and no other room of the
 * project.
 */
package org.groovemend.signal;
