package org.groovemend.signing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.KeyPairGenerator;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.InputRejectedException;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class KeyFilesTest {

  private static final char[] SECRET = "seven ferries, no umbrella".toCharArray();

  @TempDir private Path folder;
  private final SigningKey key = SigningKey.generate();
  private Path file;

  @BeforeEach
  void name() {
    file = folder.resolve("some.pem");
  }

  private Path write(String text) throws IOException {
    return Files.writeString(file, text);
  }

  @Test
  void aKeyComesBack() throws IOException {
    write(KeyFiles.privateText(key, null));
    assertEquals(key.vouching(), KeyFiles.readPrivate(file, null).vouching());
    write(key.vouching().pem());
    assertEquals(key.vouching(), KeyFiles.readPublic(file));
    assertTrue(KeyFiles.isPublic(file));
  }

  @Test
  void anEncryptedKeyComesBackWithItsPassphraseAlone() throws IOException {
    write(KeyFiles.privateText(key, SECRET));
    assertTrue(KeyFiles.encrypted(file));
    assertEquals(key.vouching(), KeyFiles.readPrivate(file, SECRET).vouching());
    assertTold("encrypted", () -> KeyFiles.readPrivate(file, null));
    assertTold("cannot be decrypted", () -> KeyFiles.readPrivate(file, "other".toCharArray()));
  }

  @Test
  void textAroundABlockAndOtherLineEndsAreNoMatter() throws IOException {
    write("Key of the invented archive\n" + key.vouching().pem().replace("\n", "\r\n") + "thanks");
    assertEquals(key.vouching(), KeyFiles.readPublic(file));
  }

  @ParameterizedTest
  @ValueSource(strings = {"RSA", "EC", "X25519", "Ed448"})
  void keysOfOtherKindsAreNamed(String algorithm) throws Exception {
    var pair = KeyPairGenerator.getInstance(algorithm).generateKeyPair();
    String said =
        switch (algorithm) {
          case "RSA" -> "an RSA key";
          case "EC" -> "another elliptic curve";
          case "Ed448" -> "an Ed448 key";
          default -> "X25519";
        };
    write(new Pem(Pem.PUBLIC, pair.getPublic().getEncoded()).text());
    assertTold(said, () -> KeyFiles.readPublic(file));
    write(new Pem(Pem.PRIVATE, pair.getPrivate().getEncoded()).text());
    assertTold(said, () -> KeyFiles.readPrivate(file, null));
  }

  @Test
  void whatIsNoKeyIsToldAsSuch() throws IOException {
    write("no key");
    assertTold("holds no key", () -> KeyFiles.readPublic(file));
    write("-----BEGIN PUBLIC KEY-----\n!!\n-----END PUBLIC KEY-----\n");
    assertTold("holds no key", () -> KeyFiles.readPublic(file));
    write(new Pem("OPENSSH PRIVATE KEY", new byte[] {1, 2, 3}).text());
    assertTold("OPENSSH PRIVATE KEY", () -> KeyFiles.readPrivate(file, null));
    write(new Pem("CERTIFICATE", new byte[] {1, 2, 3}).text());
    assertTold("CERTIFICATE", () -> KeyFiles.readPublic(file));
    write(new Pem(Pem.PUBLIC, new byte[] {1, 2, 3}).text());
    assertTold("damaged", () -> KeyFiles.readPublic(file));
    write(KeyFiles.privateText(key, null));
    assertTold("private key", () -> KeyFiles.readPublic(file));
    write(key.vouching().pem());
    assertTold("public key", () -> KeyFiles.readPrivate(file, null));
    assertTold("folder", () -> KeyFiles.readPublic(folder));
    Files.write(file, new byte[1 << 17]);
    assertTold("holds no key", () -> KeyFiles.readPublic(file));
  }

  private interface Reading {
    void run() throws IOException;
  }

  private static void assertTold(String words, Reading reading) {
    InputRejectedException told = assertThrows(InputRejectedException.class, reading::run);
    assertTrue(told.getMessage().contains(words), told.getMessage());
  }

  // openssl, an independent program, both ways

  private String openssl(boolean expected, String... arguments) throws Exception {
    List<String> command = new ArrayList<>(List.of("openssl"));
    command.addAll(List.of(arguments));
    Process process;
    try {
      process =
          new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true).start();
    } catch (IOException e) {
      Assumptions.abort("openssl is not installed");
      return "";
    }
    String said = new String(process.getInputStream().readAllBytes());
    assertEquals(expected, process.waitFor() == 0, command + ": " + said);
    return said;
  }

  @Test
  void keysOfOpensslAreRead() throws Exception {
    openssl(true, "genpkey", "-algorithm", "ed25519", "-out", "some.pem");
    openssl(true, "pkey", "-in", "some.pem", "-pubout", "-out", "open.pem");
    SigningKey read = KeyFiles.readPrivate(file, null);
    assertEquals(KeyFiles.readPublic(folder.resolve("open.pem")), read.vouching());
    Files.write(folder.resolve("message"), new byte[] {1, 2, 3});
    Files.write(folder.resolve("ours"), read.sign(new byte[] {1, 2, 3}));
    openssl(
        true,
        "pkeyutl",
        "-sign",
        "-inkey",
        "some.pem",
        "-rawin",
        "-in",
        "message",
        "-out",
        "theirs");
    assertEquals(-1, Files.mismatch(folder.resolve("ours"), folder.resolve("theirs")));
  }

  @ParameterizedTest
  @ValueSource(strings = {"aes-256-cbc", "aes-128-cbc"})
  void encryptedKeysOfOpensslAreRead(String cipher) throws Exception {
    openssl(true, "genpkey", "-algorithm", "ed25519", "-out", "plain.pem");
    openssl(
        true,
        "pkcs8",
        "-topk8",
        "-in",
        "plain.pem",
        "-v2",
        cipher,
        "-passout",
        "pass:abc def",
        "-out",
        "some.pem");
    assertEquals(
        KeyFiles.readPrivate(folder.resolve("plain.pem"), null).vouching(),
        KeyFiles.readPrivate(file, "abc def".toCharArray()).vouching());
  }

  @Test
  void opensslReadsOurs() throws Exception {
    write(KeyFiles.privateText(key, null));
    assertEquals(key.vouching().pem(), openssl(true, "pkey", "-in", "some.pem", "-pubout"));
    write(KeyFiles.privateText(key, SECRET));
    String with = "pass:" + new String(SECRET);
    assertEquals(
        key.vouching().pem(), openssl(true, "pkey", "-in", "some.pem", "-passin", with, "-pubout"));
    openssl(false, "pkey", "-in", "some.pem", "-passin", "pass:other", "-pubout");
    write(key.vouching().pem());
    openssl(true, "pkey", "-pubin", "-in", "some.pem", "-outform", "DER", "-out", "der");
    assertTrue(openssl(true, "sha256", "der").contains(key.vouching().sha256()));
  }

  @Test
  void opensslChecksASignature() throws Exception {
    SignatureFile signed =
        SignatureFile.empty()
            .sign(
                new SealedName("side.ledger.jsonl", "ab".repeat(32)),
                null,
                SignatureRole.OPERATOR,
                "Wilma Quist",
                "2026-03-01T12:00:00Z",
                key);
    LedgerSignature one = signed.signatures().get(0);
    write(key.vouching().pem());
    Files.write(folder.resolve("payload"), one.signed());
    Files.write(folder.resolve("signature"), java.util.Base64.getDecoder().decode(one.signature()));
    String[] check = {
      "pkeyutl",
      "-verify",
      "-pubin",
      "-inkey",
      "some.pem",
      "-rawin",
      "-in",
      "payload",
      "-sigfile",
      "signature"
    };
    openssl(true, check);
    byte[] payload = one.signed();
    payload[20] ^= 1;
    Files.write(folder.resolve("payload"), payload);
    openssl(false, check);
    assertFalse(Files.exists(folder.resolve("nothing else")));
  }
}
