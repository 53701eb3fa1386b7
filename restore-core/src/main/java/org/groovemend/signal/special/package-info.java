/** Special functions the libraries at hand do not have, to full double precision. */
package org.groovemend.signal.special;
