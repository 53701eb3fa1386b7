/**
 * A whole collection: which sides there are, which of them are to be done, doing them side by side,
 * and the catalogue of it all.
 *
 * <p>{@link org.groovemend.batch.CollectionWalk} finds the files, {@link
 * org.groovemend.batch.BatchPlan} compares them with the {@link org.groovemend.batch.Catalogue} of
 * earlier runs, {@link org.groovemend.batch.BatchRun} does what is left, each side by {@link
 * org.groovemend.batch.SideJob}, which knows nothing of catalogue and machine and can run anywhere.
 *
 * <p>What is true of a side stands in the catalogue: a side is done when its row says so and its
 * results are there; the row says so only after all of them are in place and on the disk. Whatever
 * happens before that is done again. The catalogue is written before a side is begun too, so that
 * results which are there already are known to be ours before they are replaced.
 */
package org.groovemend.batch;
