package org.groovemend.signing;

import java.security.PublicKey;
import java.security.spec.InvalidKeySpecException;
import java.util.Base64;
import org.groovemend.ledger.Sha256;

/**
 * A public key that may have signed.
 *
 * @param spki X.509 SubjectPublicKeyInfo in DER, base64 (RFC 4648 section 4)
 */
public record VouchingKey(String spki) {

  static VouchingKey of(PublicKey key) {
    return new VouchingKey(Base64.getEncoder().encodeToString(key.getEncoded()));
  }

  /** SHA-256 of its DER, 64 hexadecimal digits: {@code openssl sha256} of it tells the same. */
  public String sha256() {
    return Sha256.of(Base64.getDecoder().decode(spki));
  }

  public Fingerprint fingerprint() {
    return Fingerprint.of(sha256());
  }

  /** As a PEM text. */
  public String pem() {
    return new Pem(Pem.PUBLIC, Base64.getDecoder().decode(spki)).text();
  }

  /** Null if it is none of Ed25519, or written otherwise than it would be here. */
  PublicKey keyOrNull() {
    try {
      PublicKey key = Ed25519.publicKey(Base64.getDecoder().decode(spki));
      return of(key).equals(this) ? key : null;
    } catch (InvalidKeySpecException | IllegalArgumentException e) {
      return null;
    }
  }
}
