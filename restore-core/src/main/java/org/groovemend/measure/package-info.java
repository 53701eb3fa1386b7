/**
 * Numbers with units about a side: levels, clipping, offset, what the bits say. Changes nothing.
 */
package org.groovemend.measure;
