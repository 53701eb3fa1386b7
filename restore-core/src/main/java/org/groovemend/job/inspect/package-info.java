/** A transfer judged before anything is done to it: one listening pass, findings, page. */
package org.groovemend.job.inspect;
