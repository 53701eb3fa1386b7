package org.groovemend.audio.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** Fields of the bext chunk against bext_fields.csv (EBU Tech 3285 v2). */
class BroadcastExtensionReferenceTest {

  /**
   * Fills each field of the table with a mark of its own and looks for it in the field of that
   * name.
   */
  @Test
  void everyFieldStandsAtTheOffsetOfTheTable() throws IOException {
    List<String[]> rows = ReferenceTable.rows("bext_fields.csv", 5);
    Map<String, int[]> fields =
        rows.stream()
            .filter(row -> row[2].matches("\\d+"))
            .collect(
                Collectors.toMap(
                    row -> row[0],
                    row -> new int[] {Integer.parseInt(row[1]), Integer.parseInt(row[2])}));
    assertThat(fields).hasSize(15);
    byte[] chunk = new byte[602 + 3];
    text(chunk, fields.get("Description"), 'd');
    text(chunk, fields.get("Originator"), 'o');
    text(chunk, fields.get("OriginatorReference"), 'r');
    text(chunk, fields.get("OriginationDate"), 'y');
    text(chunk, fields.get("OriginationTime"), 'h');
    number(chunk, fields.get("TimeReferenceLow"), 0x89abcdefL);
    number(chunk, fields.get("TimeReferenceHigh"), 0x12L);
    number(chunk, fields.get("Version"), 2);
    text(chunk, fields.get("UMID"), 'u');
    number(chunk, fields.get("LoudnessValue"), -2_300);
    number(chunk, fields.get("LoudnessRange"), 801);
    number(chunk, fields.get("MaxTruePeakLevel"), -102);
    number(chunk, fields.get("MaxMomentaryLoudness"), -1_500);
    number(chunk, fields.get("MaxShortTermLoudness"), 0x7fff);
    int history =
        rows.stream()
            .filter(row -> row[0].equals("CodingHistory"))
            .mapToInt(row -> Integer.parseInt(row[1]))
            .findFirst()
            .orElseThrow();
    text(chunk, new int[] {history, 3}, 'c');

    BroadcastExtension read = BroadcastExtension.parse(chunk);

    assertThat(read.description()).isEqualTo("d".repeat(256));
    assertThat(read.originator()).isEqualTo("o".repeat(32));
    assertThat(read.originatorReference()).isEqualTo("r".repeat(32));
    assertThat(read.originationDate()).isEqualTo("y".repeat(10));
    assertThat(read.originationTime()).isEqualTo("h".repeat(8));
    assertThat(read.timeReference()).isEqualTo(0x12_89ab_cdefL);
    assertThat(read.version()).isEqualTo(2);
    assertThat(read.umid()).hasSize(64).containsOnly('u');
    assertThat(read.loudness()).containsExactly(-2_300, 801, -102, -1_500, 0x7fff);
    assertThat(read.codingHistory()).isEqualTo("ccc");
  }

  private static void text(byte[] out, int[] field, char mark) {
    for (int i = 0; i < field[1]; i++) {
      out[field[0] + i] = (byte) mark;
    }
  }

  private static void number(byte[] out, int[] field, long value) {
    for (int i = 0; i < field[1]; i++) {
      out[field[0] + i] = (byte) (value >> 8 * i);
    }
  }
}
