package org.groovemend.signing;

import java.util.Locale;

/** As what somebody signs. */
public enum SignatureRole {
  /** Who made the treatment, or answers for it. */
  OPERATOR,
  /** Who looked at it afterwards; signs what the operator signed, and the operator's signature. */
  REVIEWER;

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  static SignatureRole ofKey(String key) {
    for (SignatureRole role : values()) {
      if (role.key().equals(key)) {
        return role;
      }
    }
    throw new IllegalArgumentException("there is no role \"" + key + "\" of a signature");
  }
}
