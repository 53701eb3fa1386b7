/**
 * Verification at rest: a whole store of ledgers, deliveries and bags read again, for the rounds in
 * which an archive makes sure that nothing has changed.
 *
 * <p>{@link org.groovemend.fixity.StoreWalk} finds in every folder what vouches for files, and
 * makes a {@link org.groovemend.fixity.FixityTask} of each; {@link org.groovemend.fixity.FixityRun}
 * does them at once on several threads; {@link org.groovemend.fixity.FixityRecord} keeps what was
 * done, so that a round that was killed goes on where it was. The store is only read; the catalogue
 * of a collection is read from a copy, since the data base makes files beside it.
 *
 * <p>Memory: the names of one folder, the listings of one bag, and the names of what a resumed
 * round has done; not the store.
 */
package org.groovemend.fixity;
