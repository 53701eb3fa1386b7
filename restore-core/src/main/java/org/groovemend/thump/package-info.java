/** Thumps. */
package org.groovemend.thump;
