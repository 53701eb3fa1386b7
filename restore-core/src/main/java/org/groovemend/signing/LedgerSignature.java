package org.groovemend.signing;

import java.time.DateTimeException;
import java.time.Instant;
import java.util.Arrays;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import org.groovemend.ledger.Sha256;
import org.groovemend.sealed.CanonicalJson;

/**
 * One signature and what was signed: the canonical JSON (RFC 8785) of all components but the last.
 *
 * @param ledger that is vouched for
 * @param decisions that are vouched for as well, or null
 * @param role as what
 * @param name of who signed, as stated
 * @param atUtc when, as stated: ISO 8601 in UTC
 * @param previous SHA-256 of the signature before it in the file, so that none can be taken out of
 *     the row; null for the first
 * @param key whose signature it is
 * @param signature Ed25519, 64 bytes as base64
 */
public record LedgerSignature(
    SealedName ledger,
    SealedName decisions,
    SignatureRole role,
    String name,
    String atUtc,
    String previous,
    VouchingKey key,
    String signature) {

  /** Longest name, UTF-16 units. */
  public static final int LONGEST_NAME = 200;

  static final String FORMAT = "groovemend-signature";
  static final long VERSION = 1;

  public LedgerSignature {
    Objects.requireNonNull(ledger, "ledger");
    Objects.requireNonNull(role, "role");
    Objects.requireNonNull(key, "key");
    Objects.requireNonNull(signature, "signature");
    requireName(name);
    requireUtc(atUtc);
  }

  private static void requireName(String name) {
    boolean plain = name.length() <= LONGEST_NAME;
    for (int i = 0; plain && i < name.length(); ) {
      int c = name.codePointAt(i);
      // a name must not break lines nor turn the direction of writing
      int type = Character.getType(c);
      plain =
          type != Character.CONTROL
              && type != Character.FORMAT
              && type != Character.SURROGATE
              && type != Character.LINE_SEPARATOR
              && type != Character.PARAGRAPH_SEPARATOR;
      i += Character.charCount(c);
    }
    if (!plain || !name.equals(name.strip())) {
      throw new IllegalArgumentException(
          "a name of who signs has at most "
              + LONGEST_NAME
              + " characters, no blanks around it and none that cannot be seen");
    }
  }

  private static void requireUtc(String atUtc) {
    try {
      if (atUtc.endsWith("Z")) {
        Instant.parse(atUtc);
        return;
      }
    } catch (DateTimeException notATime) {
      // told below
    }
    throw new IllegalArgumentException(
        "\"" + atUtc + "\" is not a time such as 2026-03-01T12:00:00Z");
  }

  /** Signs. */
  static LedgerSignature make(
      SealedName ledger,
      SealedName decisions,
      SignatureRole role,
      String name,
      String atUtc,
      String previous,
      SigningKey key) {
    LedgerSignature unsigned =
        new LedgerSignature(ledger, decisions, role, name, atUtc, previous, key.vouching(), "");
    return new LedgerSignature(
        ledger,
        decisions,
        role,
        name,
        atUtc,
        previous,
        key.vouching(),
        Base64.getEncoder().encodeToString(key.sign(unsigned.signed())));
  }

  /** What is signed, by name. */
  Map<String, Object> payload() {
    Map<String, Object> payload = new LinkedHashMap<>();
    payload.put("format", FORMAT);
    payload.put("version", VERSION);
    payload.put("ledger", map(ledger));
    payload.put("decisions", decisions == null ? null : map(decisions));
    payload.put("role", role.key());
    payload.put("name", name);
    payload.put("atUtc", atUtc);
    payload.put("previous", previous);
    payload.put("publicKey", key.spki());
    return payload;
  }

  private static Map<String, Object> map(SealedName file) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("name", file.name());
    map.put("seal", file.seal());
    return map;
  }

  /** The bytes that are signed. */
  byte[] signed() {
    return CanonicalJson.bytes(payload());
  }

  /** As it stands in the file. */
  Map<String, Object> entry() {
    Map<String, Object> entry = new LinkedHashMap<>();
    entry.put("payload", payload());
    entry.put("signature", signature);
    return entry;
  }

  /** What the next one in the file holds of this one. */
  String digest() {
    return Sha256.of(CanonicalJson.bytes(entry()));
  }

  /** True if this key signed just this. */
  public boolean signedByItsKey() {
    var publicKey = key.keyOrNull();
    byte[] bytes;
    try {
      bytes = Base64.getDecoder().decode(signature);
    } catch (IllegalArgumentException e) {
      return false;
    }
    return publicKey != null
        && bytes.length == Ed25519.SIGNATURE_BYTES
        // one way to write it alone
        && Arrays.equals(
            signature.getBytes(java.nio.charset.StandardCharsets.US_ASCII),
            Base64.getEncoder().encode(bytes))
        && Ed25519.verify(publicKey, signed(), bytes);
  }
}
