/**
 * BagIt: a folder whose files are listed with their checksums, so that whoever receives it can tell
 * that nothing is missing, added or changed.
 *
 * <p>After RFC 8493 (BagIt 1.0), by its text from memory; {@code sha256sum} as an independent check
 * of the manifests in the tests. A bag is <em>complete</em> when every file that is listed is there
 * and every payload file is listed; it is <em>valid</em> when it is complete and every checksum
 * holds. Files listed in {@code fetch.txt} are not fetched; this program never touches a network.
 *
 * @see <a href="https://www.rfc-editor.org/rfc/rfc8493">RFC 8493</a>
 */
package org.groovemend.bag;
