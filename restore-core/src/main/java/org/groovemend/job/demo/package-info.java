/** Invented sides, damaged, restored, delivered, for a first look. */
package org.groovemend.job.demo;
