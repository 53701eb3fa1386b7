/**
 * A collection done on many machines by an engine that shares work out, whichever it is: what
 * travels to a worker and back ({@link org.groovemend.batch.cluster.Parcel}, {@link
 * org.groovemend.batch.cluster.Answer}, both plain JSON), what a worker does ({@link
 * org.groovemend.batch.cluster.ParcelJob}) and what the one process does that planned it ({@link
 * org.groovemend.batch.cluster.ClusterRun}).
 *
 * <p>A worker writes results of its own into a hidden folder beside their place, on storage that
 * all machines share, and leaves them there. Only the planning process moves results into place and
 * writes the catalogue, for the first answer about a side; so it does not matter how often, or how
 * often at once, a side is attempted, nor where a worker is lost. What later answers and lost
 * workers have left hidden is removed at the end.
 */
package org.groovemend.batch.cluster;
