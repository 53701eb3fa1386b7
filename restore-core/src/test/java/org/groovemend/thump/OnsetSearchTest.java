package org.groovemend.thump;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class OnsetSearchTest {
  private static final ThumpGeometry G = ThumpGeometry.of(ThumpParameters.defaults(), 96_000);
  private static final int INSTANTS = 16_000;

  private static OnsetSearch search() {
    return new OnsetSearch(G, new OnsetTemplates(G), 2);
  }

  private static double[][] noise() {
    Random random = new Random(1);
    double[][] x = new double[2][INSTANTS];
    for (double[] channel : x) {
      for (int n = 0; n < INSTANTS; n++) {
        channel[n] = 0.01 * random.nextGaussian();
      }
    }
    return x;
  }

  @Test
  void aRingIsFoundWhereItBegins() {
    double[][] x = noise();
    ThumpSound.add(x[0], 2000, 7000, 0.1, 74, 14, 0.12, 0.06);
    List<Onset> found = search().seek(x, 500, INSTANTS, 3000, 12_000);
    assertThat(found).hasSize(1);
    assertThat(found.get(0).instant()).isBetween(7490L, 7510L);
  }

  @Test
  void noiseAloneHasNone() {
    assertThat(search().seek(noise(), 500, INSTANTS, 3000, 12_000)).isEmpty();
  }

  /** Judging again only what has changed is the same as judging all. */
  @Test
  void seekingAgainIsSeekingAfresh() {
    double[][] x = noise();
    ThumpSound.add(x[0], 2000, 5000, 0.1, 74, 14, 0.12, 0.06);
    ThumpSound.add(x[1], 2000, 9000, 0.1, 74, 14, 0.12, 0.06);
    OnsetSearch search = search();
    assertThat(search.seek(x, 0, INSTANTS, 3000, 12_000)).hasSize(2);
    ThumpSound.add(x[0], 2000, 5000, -0.1, 74, 14, 0.12, 0.06);
    List<Onset> again =
        search.seekAgain(x, 0, INSTANTS, List.of(new long[] {5000, 5800}), 4000, 11_000);
    assertThat(again).isEqualTo(search().seek(x, 0, INSTANTS, 4000, 11_000)).hasSize(1);
  }
}
