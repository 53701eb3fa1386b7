/**
 * Intervals of shares and rates from small counts: {@link
 * org.groovemend.signal.interval.ShareInterval}, {@link
 * org.groovemend.signal.interval.RateInterval}.
 */
package org.groovemend.signal.interval;
