package org.groovemend.rotation;

/**
 * A place of damage, both walls taken together.
 *
 * @param frame where it begins
 * @param strength larger is more certain damage; only compared
 */
public record Tick(long frame, double strength) {}
