package org.groovemend.report;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;

/**
 * Writes well-formed HTML that is also well-formed XML; the only place where text becomes markup.
 *
 * <p>Every text and attribute value is escaped. Characters that a page cannot hold (controls, lone
 * surrogates, non-characters) and those that turn the direction of writing become U+FFFD, so that a
 * file name cannot disguise itself.
 */
final class HtmlWriter {

  private final Appendable out;
  private final Deque<String> open = new ArrayDeque<>();

  HtmlWriter(Appendable out) {
    this.out = out;
  }

  HtmlWriter doctype() throws IOException {
    out.append("<!DOCTYPE html>\n");
    return this;
  }

  /**
   * @param attributes name, value, name, value...
   */
  HtmlWriter start(String element, String... attributes) throws IOException {
    tag(element, attributes);
    out.append('>');
    open.push(element);
    return this;
  }

  /** An element without content, such as {@code br}. */
  HtmlWriter empty(String element, String... attributes) throws IOException {
    tag(element, attributes);
    out.append("/>");
    return this;
  }

  private void tag(String element, String[] attributes) throws IOException {
    out.append('<').append(element);
    for (int i = 0; i < attributes.length; i += 2) {
      out.append(' ').append(attributes[i]).append("=\"");
      escape(attributes[i + 1]);
      out.append('"');
    }
  }

  HtmlWriter text(String text) throws IOException {
    escape(text);
    return this;
  }

  /** Closes the element opened last. */
  HtmlWriter end() throws IOException {
    String element = open.pop();
    out.append("</").append(element).append('>');
    if (open.size() <= 4) {
      out.append('\n');
    }
    return this;
  }

  HtmlWriter element(String element, String text, String... attributes) throws IOException {
    return start(element, attributes).text(text).end();
  }

  /**
   * The style sheet, which is the project's own constant and contains neither {@code <} nor {@code
   * &}.
   */
  HtmlWriter style(String css) throws IOException {
    if (css.indexOf('<') >= 0 || css.indexOf('&') >= 0) {
      throw new IllegalArgumentException("style sheet with < or &");
    }
    out.append("<style>").append(css).append("</style>\n");
    return this;
  }

  /** A script, likewise a constant of the project. */
  HtmlWriter script(String text) throws IOException {
    if (text.indexOf('<') >= 0 || text.indexOf('&') >= 0) {
      throw new IllegalArgumentException("script with < or &");
    }
    out.append("<script>").append(text).append("</script>\n");
    return this;
  }

  void finish() {
    if (!open.isEmpty()) {
      throw new IllegalStateException("not closed: " + open);
    }
  }

  private void escape(String text) throws IOException {
    int plain = 0; // from here on nothing had to be replaced
    for (int i = 0; i < text.length(); ) {
      int c = text.codePointAt(i);
      int next = i + Character.charCount(c);
      String instead =
          switch (c) {
            case '<' -> "&lt;";
            case '>' -> "&gt;";
            case '&' -> "&amp;";
            case '"' -> "&quot;";
            case '\'' -> "&#39;";
            default -> allowed(c) ? null : "\ufffd";
          };
      if (instead != null) {
        out.append(text, plain, i).append(instead);
        plain = next;
      }
      i = next;
    }
    out.append(text, plain, text.length());
  }

  private static boolean allowed(int c) {
    if (c == '\n' || c == '\t') {
      return true;
    }
    boolean control = c < 0x20 || c >= 0x7f && c < 0xa0;
    boolean surrogate = c >= 0xd800 && c <= 0xdfff;
    boolean nonCharacter = (c & 0xfffe) == 0xfffe || c >= 0xfdd0 && c <= 0xfdef;
    boolean direction =
        c == 0x200e || c == 0x200f || c >= 0x202a && c <= 0x202e || c >= 0x2066 && c <= 0x2069;
    return !control && !surrogate && !nonCharacter && !direction;
  }
}
