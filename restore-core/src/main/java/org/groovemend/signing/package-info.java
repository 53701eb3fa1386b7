/**
 * Who vouches for a ledger: Ed25519 signatures (RFC 8032) over canonical JSON (RFC 8785) in a file
 * beside it, keys in PEM files (RFC 7468), and a short fingerprint to write on the sleeve.
 *
 * <p>All cryptography is that of the Java platform. docs/reference/signatures.md has the format.
 */
package org.groovemend.signing;
