package org.groovemend.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.text.Normalizer;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

class GlyphsTest {

  /** All dots of a character as one line. */
  private static String dots(char c) {
    StringBuilder dots = new StringBuilder();
    for (int row = Glyphs.FIRST_ROW; row < Glyphs.ROWS; row++) {
      for (int column = 0; column < Glyphs.COLUMNS; column++) {
        dots.append(Glyphs.dot(c, column, row) ? '#' : '.');
      }
    }
    return dots.toString();
  }

  @Test
  void lettersWithMarksAreTheirLetterAndMore() {
    for (char c : "åäöéèêëüçñčšžąęőÅÄÖÉÜÇÑČŠŽ".toCharArray()) {
      String base = dots(Normalizer.normalize("" + c, Normalizer.Form.NFD).charAt(0));
      String marked = dots(c);
      int more = 0;
      for (int i = 0; i < base.length(); i++) {
        assertThat(marked.charAt(i) == '#' || base.charAt(i) == '.').as("%s", c).isTrue();
        more += marked.charAt(i) == '#' && base.charAt(i) == '.' ? 1 : 0;
      }
      assertThat(more).as("%s", c).isPositive();
    }
  }

  @Test
  void noTwoLettersLookAlike() {
    Map<String, Character> seen = new HashMap<>();
    for (char c = 'A'; c < 0x180; c++) {
      if (Character.isLetter(c) && Glyphs.spelled("" + c).equals("" + c)) {
        Character other = seen.put(dots(c), c);
        assertThat(other).as("%s and %s", c, other).isNull();
      }
    }
    // all of Western and Central Europe but a few
    assertThat(seen).hasSizeGreaterThan(200);
  }

  @Test
  void whatCannotBeDrawnIsSpelledByItsNumber() {
    assertThat(Glyphs.spelled("å 漢.wav")).isEqualTo("å U+6F22.wav");
    // composed, as names of some file systems are not
    assertThat(Glyphs.spelled("a\u030a")).isEqualTo("å");
    assertThat(Glyphs.spelled("\ud83c\udfb5")).isEqualTo("U+1F3B5");
    assertThat(Glyphs.spelled("a\nb")).isEqualTo("aU+000Ab");
    assertThat(Glyphs.width("漢", 2)).isEqualTo(Glyphs.width("U+6F22", 2));
    assertThat(Pictures.fitted("漢漢漢", 10)).isEqualTo("U+6F22U...");
  }
}
