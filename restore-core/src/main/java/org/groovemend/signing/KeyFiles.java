package org.groovemend.signing;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.PublicKey;
import java.security.spec.InvalidKeySpecException;
import java.util.HexFormat;
import java.util.Map;
import org.groovemend.audio.InputRejectedException;

/** Reads keys from PEM files, made here or brought along, and says what is wrong with others. */
public final class KeyFiles {

  /** Longest file that is read, bytes; a key has a few hundred. */
  private static final long LONGEST = 1 << 16;

  /** Kinds of key by the object identifier in their DER (RFC 3279, RFC 5480, RFC 8410). */
  private static final Map<String, String> KINDS =
      Map.of(
          "06092a864886f70d010101",
          "an RSA key",
          "06072a8648ce3d0201",
          "a key of another elliptic curve",
          "06032b6571",
          "an Ed448 key",
          "06032b656e",
          "a key for exchange (X25519), not for signatures");

  private static final String MAKE_ONE =
      "give one of Ed25519, made by 'groovemend key --out NAME' or 'openssl genpkey -algorithm ed25519'";

  private KeyFiles() {}

  /**
   * Reads a private key.
   *
   * @param passphraseOrNull for an encrypted one
   * @throws InputRejectedException if it is none, or cannot be decrypted
   */
  public static SigningKey readPrivate(Path file, char[] passphraseOrNull) throws IOException {
    Pem pem = read(file);
    byte[] der = pem.der();
    switch (pem.label()) {
      case Pem.PRIVATE -> {
        // as it is
      }
      case Pem.ENCRYPTED -> {
        if (passphraseOrNull == null) {
          throw refused(
              file, "the key in it is encrypted", "give its passphrase with --passphrase-file");
        }
        try {
          der = EncryptedKey.decrypt(der, passphraseOrNull);
        } catch (GeneralSecurityException | IOException e) {
          throw refused(
              file,
              "the key in it cannot be decrypted with this passphrase",
              "look whether it is the right one, and printable ASCII");
        }
      }
      case Pem.PUBLIC ->
          throw refused(file, "it holds a public key", "give the private one, which signs");
      default -> throw otherLabel(file, pem);
    }
    try {
      return new SigningKey(Ed25519.pair(Ed25519.privateKey(der)));
    } catch (InvalidKeySpecException e) {
      throw refused(file, "it holds " + kind(der), MAKE_ONE);
    }
  }

  /** True if the file holds an encrypted private key. */
  public static boolean encrypted(Path file) throws IOException {
    return read(file).label().equals(Pem.ENCRYPTED);
  }

  /** True if the file holds a public key. */
  public static boolean isPublic(Path file) throws IOException {
    return read(file).label().equals(Pem.PUBLIC);
  }

  /**
   * Reads a public key.
   *
   * @throws InputRejectedException if it is none
   */
  public static VouchingKey readPublic(Path file) throws IOException {
    Pem pem = read(file);
    if (pem.label().equals(Pem.PRIVATE) || pem.label().equals(Pem.ENCRYPTED)) {
      throw refused(
          file,
          "it holds a private key",
          "give the public one; a private key stays with its owner");
    }
    if (!pem.label().equals(Pem.PUBLIC)) {
      throw otherLabel(file, pem);
    }
    try {
      PublicKey key = Ed25519.publicKey(pem.der());
      return VouchingKey.of(key);
    } catch (InvalidKeySpecException e) {
      throw refused(file, "it holds " + kind(pem.der()), MAKE_ONE);
    }
  }

  /** A private key as a PEM text, encrypted if there is a passphrase. */
  public static String privateText(SigningKey key, char[] passphraseOrNull) {
    return passphraseOrNull == null
        ? new Pem(Pem.PRIVATE, key.pkcs8()).text()
        : new Pem(Pem.ENCRYPTED, EncryptedKey.encrypt(key.pkcs8(), passphraseOrNull)).text();
  }

  private static Pem read(Path file) throws IOException {
    if (Files.isDirectory(file)) {
      throw refused(
          file, "it is a folder", "name a file that holds a key, such as NAME.private.pem");
    }
    Pem pem =
        Files.size(file) > LONGEST
            ? null
            : Pem.first(new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1));
    if (pem == null) {
      throw refused(file, "it holds no key in PEM form (\"-----BEGIN ... KEY-----\")", MAKE_ONE);
    }
    return pem;
  }

  private static InputRejectedException otherLabel(Path file, Pem pem) {
    return refused(
        file,
        "it holds a block \"" + pem.label() + "\", which is no key of PKCS#8 or X.509",
        MAKE_ONE);
  }

  private static String kind(byte[] der) {
    String hex = HexFormat.of().formatHex(der);
    return KINDS.entrySet().stream()
        .filter(kind -> hex.contains(kind.getKey()))
        .map(Map.Entry::getValue)
        .findFirst()
        .orElse("a damaged key, or one of a kind that is not known here");
  }

  private static InputRejectedException refused(Path file, String what, String whatToDo) {
    return new InputRejectedException(file, "", what, whatToDo);
  }
}
