package org.groovemend.tags;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TagsTest {

  @Test
  void textsAreTidied() {
    Tags tags =
        new Tags(
            Map.of(
                TagField.TITLE, "  A waltz \n",
                TagField.GENRE, "   ",
                TagField.COMMENT, "one\r\ntwo\rthree",
                TagField.TRACK, "07",
                TagField.ISRC, "xx-abc-31-00007",
                TagField.LANGUAGE, "ENG"));
    assertThat(tags.get(TagField.TITLE)).isEqualTo("A waltz");
    assertThat(tags.get(TagField.GENRE)).isNull();
    assertThat(tags.get(TagField.COMMENT)).isEqualTo("one\ntwo\nthree");
    assertThat(tags.get(TagField.TRACK)).isEqualTo("7");
    assertThat(tags.get(TagField.ISRC)).isEqualTo("XXABC3100007");
    assertThat(tags.get(TagField.LANGUAGE)).isEqualTo("eng");
    assertThat(tags.with(TagField.TITLE, null).get(TagField.TITLE)).isNull();
    assertThat(tags.with(TagField.TITLE, "B").get(TagField.TITLE)).isEqualTo("B");
    assertThat(Tags.none().isEmpty()).isTrue();
  }

  @ParameterizedTest
  @CsvSource({"1931", "1931-04", "1932-02-29"})
  void datesAreTakenAsFarAsTheyAreKnown(String date) {
    assertThat(Tags.none().with(TagField.DATE, date).get(TagField.DATE)).isEqualTo(date);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "DATE|ca. 1927|The tag date is \"ca. 1927\"; give yyyy",
        "DATE|1931-02-29|give yyyy",
        "DATE|1931-13|give yyyy",
        "DATE|193x|give yyyy",
        "TRACK|0|from 1 to 9999",
        "TRACK|four|from 1 to 9999",
        "ISRC|XX-ABC|seven digits",
        "LANGUAGE|english|ISO 639-2",
        "TRACKS|3|is given without track"
      })
  void whatCannotBeIsToldInASentence(TagField field, String text, String said) {
    assertThatThrownBy(() -> Tags.none().with(field, text))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageStartingWith("The tag " + field.key() + " ")
        .hasMessageContaining(said)
        .hasMessageEndingWith(".");
  }

  @Test
  void charactersThatNoTagHoldsAreToldByPlace() {
    refused("a\nb", "has a line break");
    refused("a\u0000b", "U+0000 at place 2");
    refused("a\tb", "U+0009");
    refused("a\u0085b", "U+0085");
    refused("a\uffff", "U+FFFF");
    refused("a\ud834", "half of a character pair");
    refused("é".repeat(50_001), "is 100002 bytes long");
    assertThat(Tags.none().with(TagField.TITLE, "é".repeat(50_000)).isEmpty()).isFalse();
    assertThatThrownBy(() -> new Tags(Map.of(TagField.TRACK, "13", TagField.TRACKS, "12")))
        .hasMessage("The tag track is 13 of only 12.");
  }

  private static void refused(String title, String said) {
    assertThatThrownBy(() -> Tags.none().with(TagField.TITLE, title))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(said);
  }
}
