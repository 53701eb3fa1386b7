/** Decisions as they are made, and taking them back. */
package org.groovemend.review.desk;
