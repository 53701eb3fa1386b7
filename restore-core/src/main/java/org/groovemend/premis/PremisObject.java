package org.groovemend.premis;

import java.util.List;

/**
 * A file.
 *
 * @param name file name, its identifier within the package
 * @param bytes its length
 * @param sha256 of the whole file
 * @param formatName such as "WAV"
 * @param formatNote more about its form, or ""
 * @param from files that it was made from
 * @param signatures that stand for it
 */
public record PremisObject(
    String name,
    long bytes,
    String sha256,
    String formatName,
    String formatNote,
    List<Relation> from,
    List<Signed> signatures) {

  /**
   * How it came from another file.
   *
   * @param subType "has source" or the like, relationshipSubType of the vocabulary
   * @param object its identifier
   * @param event identifier of the event by which it did, or null
   */
  public record Relation(String type, String subType, String object, String event) {}

  /**
   * A signature.
   *
   * @param signer name as stated
   * @param method such as Ed25519
   * @param value base64
   * @param rules how to check it, in words
   * @param properties what else was signed, in words
   */
  public record Signed(
      String signer, String method, String value, String rules, String properties) {}

  public PremisObject {
    from = List.copyOf(from);
    signatures = List.copyOf(signatures);
  }
}
