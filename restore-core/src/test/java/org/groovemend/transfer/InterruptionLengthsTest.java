package org.groovemend.transfer;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * How short an interruption may be and still be found, by kind and depth of words; the table goes
 * to {@code target/inspection-lengths.md}.
 */
class InterruptionLengthsTest {
  private static final int[] LENGTHS = {1, 2, 3, 5, 10, 100, 1000};
  private static final int PLACES = 16;

  @Test
  void longEnoughBlocksAreAllFoundAndNothingElseIs() throws IOException {
    List<String> table = new ArrayList<>();
    for (int bits : new int[] {24, 16}) {
      for (String kind : new String[] {"zeroed", "zeroed, one wall", "held", "repeated"}) {
        StringBuilder row = new StringBuilder("| " + bits + " | " + kind + " |");
        for (int length : LENGTHS) {
          int found = found(bits, kind, length);
          row.append(' ').append(found).append(" |");
          // the least that is promised: ten samples of fine words, a hundred of coarse ones
          if (length >= (bits == 24 ? 10 : 100)) {
            assertThat(found).as(row.toString()).isGreaterThanOrEqualTo(PLACES - 1);
          }
        }
        table.add(row.toString());
      }
    }
    Path target = Path.of(System.getProperty("basedir", "."), "target");
    Files.createDirectories(target);
    Files.write(target.resolve("inspection-lengths.md"), table);
  }

  private static int found(int bits, String kind, int length) {
    int from = (int) WornSide.musicStart();
    long[][] words = WornSide.words(bits);
    for (int c = 0; c < 2; c++) {
      words[c] = Arrays.copyOfRange(words[c], from, from + 10 * WornSide.RATE);
    }
    Random random = new Random(length);
    List<Long> truth = new ArrayList<>();
    for (int k = 0; k < PLACES; k++) {
      int at = 20_000 + k * 57_000 + random.nextInt(20_000);
      truth.add((long) at);
      for (int c = 0; c < (kind.endsWith("one wall") ? 1 : 2); c++) {
        switch (kind) {
          case "held" -> Arrays.fill(words[c], at, at + length, words[c][at - 1]);
          case "repeated" -> System.arraycopy(words[c], at - length, words[c], at, length);
          default -> Arrays.fill(words[c], at, at + length, 0);
        }
      }
    }
    InterruptionSearch search = new InterruptionSearch(WornSide.format(bits), words[0].length);
    WornSide.feed(search, words, bits);
    long right = 0;
    for (Interruption one : search.finish().places()) {
      boolean near = truth.stream().anyMatch(t -> Math.abs(t - one.frame()) <= 2);
      assertThat(near).as(bits + " bits, " + kind + " " + length + ": " + one).isTrue();
      right++;
    }
    return (int) Math.min(PLACES, right);
  }
}
