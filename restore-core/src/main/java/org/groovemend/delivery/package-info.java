/**
 * Whole or absent: a set of files appears in its folder complete, or not at all.
 *
 * <p>Everything is written into a hidden folder inside the target folder, hence on the same file
 * system, forced to the disk and then renamed into place one by one, the file that completes the
 * set last. If a rename fails, those before are taken back. If the machine stops in between, the
 * last file is absent, so the set is recognisably incomplete, and files it was to replace are still
 * in the hidden folder.
 *
 * <p>Limits: between looking whether a name is free and taking it, another program could take it; a
 * disk that reports what it has not stored cannot be seen through.
 */
package org.groovemend.delivery;
