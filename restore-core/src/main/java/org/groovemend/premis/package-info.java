/**
 * PREMIS 3, the data dictionary for preservation metadata, as XML: objects, events, agents
 * (docs/reference/premis.md says what of it is from memory).
 */
package org.groovemend.premis;
