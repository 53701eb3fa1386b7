package org.groovemend.batch;

/**
 * Why a side failed.
 *
 * @param kind for machines, as in docs/reference/exit-codes.md
 * @param sentence for people
 */
public record SideFailure(String kind, String sentence) {

  static final String MEMORY = "memory";
}
