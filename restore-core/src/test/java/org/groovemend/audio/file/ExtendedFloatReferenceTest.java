package org.groovemend.audio.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Sample rates of AIFF against file_vectors.csv (44100 confirmed there in a written file). */
class ExtendedFloatReferenceTest {

  @Test
  void everyRateOfTheTableIsReadAndWritten() throws IOException {
    List<String[]> rates =
        ReferenceTable.rows("file_vectors.csv", 3).stream()
            .filter(row -> row[0].equals("aiff-ext80"))
            .toList();
    assertThat(rates).hasSize(11);
    for (String[] row : rates) {
      int rate = Integer.parseInt(row[1]);
      byte[] bytes = HexFormat.of().parseHex(row[2]);
      assertThat(ExtendedFloat.read(bytes, 0)).isEqualTo(rate);
      byte[] written = new byte[ExtendedFloat.BYTES];
      ExtendedFloat.write(rate, written, 0);
      assertThat(written).isEqualTo(bytes);
    }
  }

  @Test
  void fractionsAndNonsenseAreSeen() {
    byte[] half = HexFormat.of().parseHex("400eac44800000000000");
    assertThat(ExtendedFloat.read(half, 0)).isEqualTo(44_100.5);
    byte[] leastBit = HexFormat.of().parseHex("400eac44000000000001");
    assertThat(ExtendedFloat.read(leastBit, 0)).isNotEqualTo(44_100);
    for (String hex :
        List.of("c00eac44000000000000", "7fff8000000000000000", "3ffe8000000000000000")) {
      assertThat(ExtendedFloat.read(HexFormat.of().parseHex(hex), 0)).isNaN();
    }
    assertThat(ExtendedFloat.read(new byte[10], 0)).isZero();
  }
}
