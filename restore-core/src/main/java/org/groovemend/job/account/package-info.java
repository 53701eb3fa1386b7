/** What was done to a side, on one page for people who are no engineers. */
package org.groovemend.job.account;
