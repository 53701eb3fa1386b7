package org.groovemend.tags;

import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * What is said of a side or a band. Any Unicode text; immutable; checked when made.
 *
 * <p>White space around a text is dropped and a text that is empty then is not there. Line ends in
 * a comment become LF. Not allowed: other control characters, line ends elsewhere, halves of
 * surrogate pairs, the non-characters U+FFFE and U+FFFF. Texts are not normalised: what is given is
 * what is written.
 *
 * @param values by field, none empty; in the order of the fields
 */
public record Tags(Map<TagField, String> values) {

  /** Longest text in bytes of UTF-8; ours, so that a whole tag stays far below every limit. */
  public static final int MAX_BYTES = 100_000;

  private static final int MAX_NUMBER = 9999;
  private static final Pattern ISRC = Pattern.compile("[A-Z]{2}[A-Z0-9]{3}[0-9]{7}");

  /**
   * Checks and tidies.
   *
   * @throws IllegalArgumentException if a text cannot be what its field wants: one sentence that
   *     names the field
   */
  public Tags {
    Map<TagField, String> tidy = new EnumMap<>(TagField.class);
    for (Map.Entry<TagField, String> entry : values.entrySet()) {
      String text = tidied(entry.getKey(), entry.getValue());
      if (!text.isEmpty()) {
        tidy.put(entry.getKey(), text);
      }
    }
    requireWithin(tidy, TagField.TRACK, TagField.TRACKS);
    requireWithin(tidy, TagField.DISC, TagField.DISCS);
    values = Collections.unmodifiableMap(tidy);
  }

  /** No tags at all. */
  public static Tags none() {
    return new Tags(Map.of());
  }

  /** These with one more or another one; an empty text or null takes the field away. */
  public Tags with(TagField field, String textOrNull) {
    Map<TagField, String> more = new EnumMap<>(TagField.class);
    more.putAll(values);
    more.put(field, textOrNull == null ? "" : textOrNull);
    return new Tags(more);
  }

  /** The text, or null if there is none. */
  public String get(TagField field) {
    return values.get(field);
  }

  public boolean isEmpty() {
    return values.isEmpty();
  }

  private static String tidied(TagField field, String text) {
    String tidy = text.replace("\r\n", "\n").replace('\r', '\n').strip();
    if (tidy.isEmpty()) {
      return tidy;
    }
    requireCharacters(field, tidy);
    return switch (field.form()) {
      case LINE, LINES -> tidy;
      case NUMBER -> number(field, tidy);
      case DATE -> date(field, tidy);
      case ISRC -> isrc(field, tidy);
      case LANGUAGE -> language(field, tidy);
    };
  }

  private static void requireCharacters(TagField field, String text) {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '\n') {
        if (field.form() != TagField.Form.LINES) {
          throw refused(field, "has a line break, and only a comment may have several lines");
        }
      } else if (Character.isISOControl(c) || c >= 0xfffe) {
        throw refused(
            field,
            String.format(
                Locale.ROOT,
                "has the character U+%04X at place %d, which no tag can hold; take it out",
                (int) c,
                i + 1));
      }
    }
    try {
      int bytes =
          StandardCharsets.UTF_8.newEncoder().encode(java.nio.CharBuffer.wrap(text)).limit();
      if (bytes > MAX_BYTES) {
        throw refused(
            field, "is " + bytes + " bytes long; more than " + MAX_BYTES + " are not taken");
      }
    } catch (CharacterCodingException e) {
      throw refused(field, "has half of a character pair and is no Unicode text; write it anew");
    }
  }

  private static String number(TagField field, String text) {
    try {
      int number = Integer.parseInt(text);
      if (number >= 1 && number <= MAX_NUMBER) {
        return Integer.toString(number);
      }
    } catch (NumberFormatException e) {
      // told below
    }
    throw refused(field, "is \"" + text + "\"; give a whole number from 1 to " + MAX_NUMBER);
  }

  private static String date(TagField field, String text) {
    try {
      boolean known =
          switch (text.length()) {
            case 4 -> text.chars().allMatch(c -> c >= '0' && c <= '9');
            case 7 -> YearMonth.parse(text).toString().equals(text);
            case 10 -> LocalDate.parse(text).toString().equals(text);
            default -> false;
          };
      if (known) {
        return text;
      }
    } catch (DateTimeException e) {
      // told below
    }
    throw refused(
        field,
        "is \"" + text + "\"; give yyyy, yyyy-mm or yyyy-mm-dd and put a doubt into the comment");
  }

  private static String isrc(TagField field, String text) {
    String code = text.replace("-", "").toUpperCase(Locale.ROOT);
    if (!ISRC.matcher(code).matches()) {
      throw refused(
          field,
          "is \"" + text + "\"; it has two letters, three letters or digits, and seven digits");
    }
    return code;
  }

  private static String language(TagField field, String text) {
    String code = text.toLowerCase(Locale.ROOT);
    if (code.length() != 3 || !code.chars().allMatch(c -> c >= 'a' && c <= 'z')) {
      throw refused(
          field, "is \"" + text + "\"; give the three letters of ISO 639-2, such as eng or fra");
    }
    return code;
  }

  private static void requireWithin(Map<TagField, String> tags, TagField one, TagField all) {
    if (tags.containsKey(all)) {
      if (!tags.containsKey(one)) {
        throw refused(all, "is given without " + one.key());
      }
      if (Integer.parseInt(tags.get(one)) > Integer.parseInt(tags.get(all))) {
        throw refused(one, "is " + tags.get(one) + " of only " + tags.get(all));
      }
    }
  }

  private static IllegalArgumentException refused(TagField field, String what) {
    return new IllegalArgumentException("The tag " + field.key() + " " + what + ".");
  }
}
