package org.groovemend.review.desk;

/**
 * What a change did.
 *
 * @param edit number of the one edit that it touched; 0 if it may have touched all
 * @param mark of that edit
 */
public record Outcome(long edit, int mark) {}
