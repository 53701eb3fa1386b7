/**
 * What a person decides about the edits of a ledger: keep, take back, leave to somebody else. The
 * file of decisions says for which ledger it was made and tells when it was altered
 * (docs/reference/decisions.md).
 */
package org.groovemend.decisions;
