package org.groovemend.batch;

import java.nio.file.Path;

/**
 * A file of a collection that may be a side.
 *
 * @param file where it lies
 * @param place its path within the collection, parts joined by "/", the name of the source first;
 *     no two sides have the same
 * @param bytes its length, -1 if the system does not tell
 * @param modifiedNanos when it was changed last, nanoseconds since 1970
 */
public record FoundSide(Path file, String place, long bytes, long modifiedNanos) {}
