/**
 * What is measured of a transfer, what limits a house sets, and what follows: {@link
 * org.groovemend.limits.Measure}, {@link org.groovemend.limits.Limit}, {@link
 * org.groovemend.limits.Finding}. Numbers of limits are data, kept in files; nothing here knows
 * one.
 */
package org.groovemend.limits;
