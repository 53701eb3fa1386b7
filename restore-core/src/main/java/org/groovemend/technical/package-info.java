/**
 * Technical metadata of a file and the disc it was taken from, as an XML document.
 *
 * <p>In the manner of AES57-2011 (audio object structures for preservation and restoration), whose
 * text was not at hand: element names follow it where they are known from public output of other
 * programs or from memory ({@code docs/reference/technical-metadata.md} says which), but the
 * document has its own namespace and schema and does not claim to conform.
 */
package org.groovemend.technical;
