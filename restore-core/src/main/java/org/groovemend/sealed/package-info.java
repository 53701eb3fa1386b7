/**
 * Small documents that tell when they were altered: JSON in the canonical form of RFC 8785, sealed
 * by SHA-256.
 */
package org.groovemend.sealed;
