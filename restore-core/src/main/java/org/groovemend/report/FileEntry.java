package org.groovemend.report;

/**
 * A file that belongs to the treatment.
 *
 * @param role "original", "restored", "removed", "ledger"
 * @param name without folders: a page may travel
 * @param bytes length, -1 if not known when the page is written
 * @param sha256 lower-case hexadecimal, empty if not known when the page is written
 */
public record FileEntry(String role, String name, long bytes, String sha256) {}
