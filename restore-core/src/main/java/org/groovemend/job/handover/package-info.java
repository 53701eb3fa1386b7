/** What goes to other archives: PREMIS records, the table of edits, bags made and checked. */
package org.groovemend.job.handover;
