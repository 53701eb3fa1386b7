package org.groovemend.signing;

import java.util.Base64;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One block of a PEM text (RFC 7468).
 *
 * @param label such as "PRIVATE KEY"
 * @param der what it holds, DER
 */
record Pem(String label, byte[] der) {

  static final String PRIVATE = "PRIVATE KEY";
  static final String ENCRYPTED = "ENCRYPTED PRIVATE KEY";
  static final String PUBLIC = "PUBLIC KEY";

  private static final Pattern BLOCK =
      Pattern.compile("-----BEGIN ([A-Z0-9 ]+)-----([^-]*)-----END \\1-----", Pattern.DOTALL);

  /** The first block; text around it is left out, as the standard has it. Null if there is none. */
  static Pem first(String text) {
    Matcher block = BLOCK.matcher(text);
    if (!block.find()) {
      return null;
    }
    try {
      return new Pem(
          block.group(1), Base64.getDecoder().decode(block.group(2).replaceAll("\\s", "")));
    } catch (IllegalArgumentException e) {
      return null;
    }
  }

  /** The text, lines of 64 characters, each ended by LF. */
  String text() {
    String lines = Base64.getMimeEncoder(64, new byte[] {'\n'}).encodeToString(der);
    return "-----BEGIN " + label + "-----\n" + lines + "\n-----END " + label + "-----\n";
  }
}
