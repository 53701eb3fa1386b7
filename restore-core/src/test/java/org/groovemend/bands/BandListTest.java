package org.groovemend.bands;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BandListTest {

  @Test
  void plainLinesAreRead() {
    BandList list =
        BandListText.plain("\uFEFF# mine\n\n0:04 First, \"one\"\r\n1:02:03.250 Zweites Lied é\n");
    assertThat(list.entries().get(0).title()).isEqualTo("First, \"one\"");
    assertThat(list.entries().get(1).startSeconds()).isEqualTo(3723.25);
    assertThat(list.times()).isEqualTo(BandList.Times.STARTS);
    assertThat(BandListText.plain("+3:17 A\n+2:00 B").times()).isEqualTo(BandList.Times.DURATIONS);
    BandList titles = BandListText.plain("99 Steps\nA: B");
    assertThat(titles.times()).isEqualTo(BandList.Times.NONE);
    assertThat(titles.entries().get(0).title()).isEqualTo("99 Steps");
  }

  @Test
  void whatIsWrittenCanBeReadAgain() {
    String odd = "a, \"b\"\nc \u266b";
    BandPlan plan =
        new BandPlan(
            1000,
            9000,
            List.of(
                new BandPiece(BandPiece.Kind.RUN_IN, 0, 0, 1001, "", 1, "x"),
                new BandPiece(BandPiece.Kind.BAND, 1, 1001, 4000, odd, 1, "y, z"),
                new BandPiece(BandPiece.Kind.BAND, 2, 4000, 9000, "", 0.4, "w")),
            List.of(),
            List.of());
    BandList csv = BandListText.csv(BandListText.csv(plan));
    assertThat(csv.entries()).hasSize(2);
    assertThat(csv.entries().get(0).title()).isEqualTo(odd);
    assertThat(csv.entries().get(0).startSeconds()).isEqualTo(1.001);
    assertThat(csv.entries().get(1).startSeconds()).isEqualTo(4.0);
    BandList plain = BandListText.plain(BandListText.plain(plan));
    assertThat(plain.entries().get(0).title()).isEqualTo("a, \"b\" c \u266b");
    assertThat(plain.entries().get(1).startSeconds()).isEqualTo(4.0);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0:10 A;0:05 B | no later than band 1",
        "0:10 A;B | tell it of all or of none",
        "0:75 A | line 1: \"0:75\" has more than 59",
        "# only this | holds no band",
        "+0:00 A | cannot last 0.0 s",
      })
  void plainListsThatCannotBeAreOneSentence(String lines, String says) {
    assertThatThrownBy(() -> BandListText.plain(lines.replace(';', '\n')))
        .isInstanceOf(BandListException.class)
        .hasMessageContaining(says);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '\'',
      value = {
        "begin,title;1,A | names a column \"begin\"",
        "number;1 | names none of the columns",
        "start,title;x,A | row 2: \"x\" is no time",
        "start,title;1,A,B | row 2 has 3 fields",
        "title;\"A | no closing quote",
      })
  void valuesThatCannotBeAreOneSentence(String lines, String says) {
    assertThatThrownBy(() -> BandListText.csv(lines.replace(';', '\n')))
        .isInstanceOf(BandListException.class)
        .hasMessageContaining(says);
  }

  /** Read back by the layout of the specification, not by our reader. */
  @Test
  void cueChunksHaveTheLayoutOfTheSpecification() {
    List<CueChunks.Mark> marks =
        List.of(new CueChunks.Mark(5, 7, "é"), new CueChunks.Mark(0xfffffff0L, 1, "ab"));
    ByteBuffer cue = ByteBuffer.wrap(CueChunks.cue(marks)).order(ByteOrder.LITTLE_ENDIAN);
    assertThat(cue.remaining()).isEqualTo(4 + 2 * 24);
    assertThat(cue.getInt(0)).isEqualTo(2);
    assertThat(cue.getInt(4 + 24)).isEqualTo(2);
    assertThat(cue.getInt(4 + 4)).isEqualTo(5);
    assertThat(new String(cue.array(), 4 + 8, 4, StandardCharsets.US_ASCII)).isEqualTo("data");
    assertThat(Integer.toUnsignedLong(cue.getInt(4 + 24 + 20))).isEqualTo(0xfffffff0L);
    ByteBuffer list = ByteBuffer.wrap(CueChunks.labels(marks)).order(ByteOrder.LITTLE_ENDIAN);
    assertThat(new String(list.array(), 0, 8, StandardCharsets.US_ASCII)).isEqualTo("adtllabl");
    assertThat(list.getInt(8)).isEqualTo(4 + 2 + 1);
    assertThat(list.getInt(12)).isEqualTo(1);
    assertThat(new String(list.array(), 16, 2, StandardCharsets.UTF_8)).isEqualTo("é");
    // odd sizes are padded, so the next begins at an even place
    assertThat(new String(list.array(), 20, 4, StandardCharsets.US_ASCII)).isEqualTo("labl");
    int length = list.array().length - 28;
    assertThat(new String(list.array(), length, 4, StandardCharsets.US_ASCII)).isEqualTo("ltxt");
    assertThat(list.getInt(length + 8)).isEqualTo(2);
    assertThat(list.getInt(length + 12)).isEqualTo(1);
  }
}
