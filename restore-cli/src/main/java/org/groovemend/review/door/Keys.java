package org.groovemend.review.door;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;

/**
 * Who may ask: who knows the token, 256 random bits. The browser is started with a ticket instead,
 * since its command line can be read by every user of the machine: it buys the token once, within a
 * minute. Compared in constant time.
 */
public final class Keys {

  private static final int BYTES = 32;
  private static final Duration TICKET_LASTS = Duration.ofMinutes(1);

  private final String token = random();
  private final String ticket = random();
  private final Clock clock;
  private final Instant made;
  private boolean ticketSpent;

  public Keys(Clock clock) {
    this.clock = clock;
    this.made = clock.instant();
  }

  private static String random() {
    byte[] bytes = new byte[BYTES];
    new SecureRandom().nextBytes(bytes);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
  }

  public String token() {
    return token;
  }

  public String ticket() {
    return ticket;
  }

  boolean fits(String said) {
    return said != null && same(token, said);
  }

  /** The token for the ticket; null if it is another, was spent or is too old. */
  public synchronized String spend(String said) {
    if (!same(ticket, said) || ticketSpent || clock.instant().isAfter(made.plus(TICKET_LASTS))) {
      return null;
    }
    ticketSpent = true;
    return token;
  }

  private static boolean same(String secret, String said) {
    return MessageDigest.isEqual(
        secret.getBytes(StandardCharsets.UTF_8), said.getBytes(StandardCharsets.UTF_8));
  }
}
