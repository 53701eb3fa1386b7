/** A copy checked against its ledger, the original given back, ledgers signed. */
package org.groovemend.job.proof;
