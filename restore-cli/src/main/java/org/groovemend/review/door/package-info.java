/** What is let in: host, origin, token, method, size; and what every answer forbids. */
package org.groovemend.review.door;
