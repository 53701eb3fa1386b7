/** XML written so that the same content is the same bytes, by the StAX of the Java platform. */
package org.groovemend.xml;
