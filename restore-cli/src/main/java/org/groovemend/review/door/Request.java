package org.groovemend.review.door;

/**
 * A request that was let in.
 *
 * @param query what stands behind the question mark
 * @param body empty unless something was sent; not to be written to
 */
public record Request(Query query, byte[] body) {}
