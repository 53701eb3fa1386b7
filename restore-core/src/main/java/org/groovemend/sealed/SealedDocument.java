package org.groovemend.sealed;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import org.groovemend.ledger.Sha256;

/**
 * A document of names and values with a seal.
 *
 * <p>The file is, to the byte, the canonical JSON (RFC 8785) of its content with a member {@code
 * seal}, and one LF (0x0A). The seal is the SHA-256 (FIPS 180-4), 64 lower-case hexadecimal digits,
 * of the canonical JSON without that member. As there is one right form for every content, any
 * change of a bit is noticed, also in what JSON takes for white space. Like that of a ledger the
 * seal is a checksum: who forges a document on purpose makes another; a signature is what helps
 * against that.
 *
 * @param content what it says, without the seal
 * @param seal stands for the whole document
 */
public record SealedDocument(Map<String, Object> content, String seal) {

  private static final String SEAL = "seal";

  /** Longest file that is read, bytes. */
  private static final long LONGEST = 256L << 20;

  /**
   * Seals a content.
   *
   * @throws IllegalArgumentException if it has a member {@code seal} already, or is no JSON
   */
  public static SealedDocument of(Map<String, Object> content) {
    if (content.containsKey(SEAL)) {
      throw new IllegalArgumentException("the content has a member \"seal\" already");
    }
    return new SealedDocument(
        new LinkedHashMap<>(content), Sha256.of(CanonicalJson.bytes(content)));
  }

  /** The file's bytes. */
  public byte[] bytes() {
    Map<String, Object> all = new LinkedHashMap<>(content);
    all.put(SEAL, seal);
    byte[] canonical = CanonicalJson.bytes(all);
    byte[] bytes = Arrays.copyOf(canonical, canonical.length + 1);
    bytes[canonical.length] = '\n';
    return bytes;
  }

  /**
   * Reads a file and checks its form and seal.
   *
   * @throws SealedDocumentException if it is not as it was written
   */
  public static SealedDocument read(Path file) throws IOException {
    if (Files.size(file) > LONGEST) {
      throw new SealedDocumentException(
          file + " is too long for a document of this kind; give another file.");
    }
    return parse(Files.readAllBytes(file), file.toString());
  }

  /**
   * The same of bytes at hand.
   *
   * @param name for the message if something is wrong
   */
  public static SealedDocument parse(byte[] bytes, String name) throws SealedDocumentException {
    if (bytes.length < 2 || bytes[bytes.length - 1] != '\n') {
      throw new SealedDocumentException(
          name + " does not end as it was written: it was cut short, or is another kind of file.");
    }
    byte[] json = Arrays.copyOf(bytes, bytes.length - 1);
    Map<String, Object> content;
    try {
      content = new LinkedHashMap<>(CanonicalJson.read(json));
      Object seal = content.get(SEAL);
      if (!(seal instanceof String)) {
        throw new SealedDocumentException(
            name + " has no seal: it was altered, or is another kind of file.");
      }
      if (!Arrays.equals(json, CanonicalJson.bytes(content))) {
        throw new SealedDocumentException(
            name + " is not in the form in which it was written (RFC 8785): it was altered.");
      }
    } catch (SealedDocumentException e) {
      throw e;
    } catch (IOException | IllegalArgumentException e) {
      throw new SealedDocumentException(
          name + " cannot be read as JSON: it was altered, or is another kind of file.", e);
    }
    String said = (String) content.remove(SEAL);
    SealedDocument document = of(content);
    if (!document.seal.equals(said)) {
      throw new SealedDocumentException(
          name
              + " is not as it was written: its seal is "
              + said
              + ", but the digest of its content "
              + document.seal
              + ".");
    }
    return document;
  }

  /**
   * Sees to it that this is a document of one kind, which says so in {@code format} and {@code
   * version}, and of no later version than is known.
   *
   * @param kind what it ought to be, in words: "file of decisions"
   * @param example a name that such a file may have
   * @param name of this file, for the message
   * @throws SealedDocumentException if it is not
   */
  public void require(String format, long version, String kind, String example, String name)
      throws SealedDocumentException {
    if (!format.equals(content.get("format"))) {
      throw new SealedDocumentException(
          name + " is no " + kind + "; give one named like " + example + ".");
    }
    if (content.get("version") instanceof Long found && found > version) {
      throw new SealedDocumentException(
          name
              + " is of version "
              + found
              + ", later than this program knows; use a later groovemend.");
    }
  }
}
