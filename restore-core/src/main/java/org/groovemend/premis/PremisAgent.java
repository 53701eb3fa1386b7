package org.groovemend.premis;

/**
 * Somebody or something that took part.
 *
 * @param identifier within the document
 * @param name as stated
 * @param person false for software
 * @param version of software, or ""
 * @param note more, or ""
 */
public record PremisAgent(
    String identifier, String name, boolean person, String version, String note) {}
