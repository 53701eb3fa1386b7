/** What became of an original in something made from it, as texts, figures and a page. */
package org.groovemend.job.audit;
