/**
 * A side restored: the plan, the stages run, the ledger, the report page, the comparison of before
 * and after.
 */
package org.groovemend.job.restore;
