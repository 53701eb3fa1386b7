package org.groovemend.transfer;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Checked against places that the test itself damaged. */
class InterruptionSearchTest {
  private static final int BITS = 24;

  private static Interruptions find(long[][] words, int bits, int block) {
    InterruptionSearch search = new InterruptionSearch(WornSide.format(bits), words[0].length);
    WornSide.feed(search, words, WornSide.samples(words, bits), block);
    return search.finish();
  }

  @Test
  void aWornSideHasNone() {
    for (int bits : new int[] {16, 24}) {
      assertThat(find(WornSide.words(bits), bits, 65_536).places()).isEmpty();
    }
  }

  @Test
  void coarseWordsTimesAGainHaveNone() {
    long[][] words = WornSide.words(16);
    for (long[] channel : words) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] = Math.round(channel[i] * 187.3);
      }
    }
    assertThat(find(words, 24, 65_536).places()).isEmpty();
  }

  @Test
  void zeroedBlocksAreFoundWhereTheyAre() {
    Random random = new Random(5);
    for (int length : new int[] {2, 3, 10, 100, 1000}) {
      long[][] words = WornSide.words(BITS);
      long[] truth = new long[20];
      for (int k = 0; k < truth.length; k++) {
        truth[k] = place(random, k, truth.length);
        for (long[] channel : words) {
          java.util.Arrays.fill(channel, (int) truth[k], (int) truth[k] + length, 0);
        }
      }
      Interruptions found = find(words, BITS, 65_536);
      assertThat(found.count()).as("zeroed " + length).isBetween(19L, 20L);
      for (Interruption one : found.places()) {
        assertThat(one.kind()).isEqualTo(Interruption.Kind.ZEROED);
        assertThat(truth).contains(one.frame());
        assertThat(one.frames()).isEqualTo(length);
        assertThat(one.channel()).isEqualTo(-1);
      }
      assertThat(find(words, BITS, 1021)).isEqualTo(found);
    }
  }

  @Test
  void repeatedBlocksAreFound() {
    Random random = new Random(6);
    for (int length : new int[] {4, 30, 300, 1000}) {
      long[][] words = WornSide.words(BITS);
      for (int k = 0; k < 20; k++) {
        int at = (int) place(random, k, 20);
        for (long[] channel : words) {
          System.arraycopy(channel, at, channel, at + length, length);
        }
      }
      Interruptions found = find(words, BITS, 65_536);
      assertThat(found.count()).as("repeated " + length).isEqualTo(20);
      assertThat(found.of(Interruption.Kind.REPEATED)).isEqualTo(20);
      assertThat(found.places().get(0).lag()).isEqualTo(length);
    }
  }

  @Test
  void heldWordsOfOneWallAreFound() {
    long[][] words = WornSide.words(BITS);
    int at = (int) WornSide.musicStart() + 200_000;
    java.util.Arrays.fill(words[1], at, at + 30, words[1][at]);
    Interruptions found = find(words, BITS, 65_536);
    assertThat(found.places()).hasSize(1);
    assertThat(found.places().get(0).kind()).isEqualTo(Interruption.Kind.HELD);
    assertThat(found.places().get(0).channel()).isEqualTo(1);
  }

  @Test
  void tonesFadesAndSilenceAreNoInterruptions() {
    long[][] words = new long[2][10 * WornSide.RATE];
    for (int i = 0; i < words[0].length; i++) {
      double fade = Math.min(1, Math.abs(i - words[0].length / 2) / (double) WornSide.RATE / 3);
      // a tone that repeats itself word for word every 96 frames, faded down to nothing and up
      words[0][i] = Math.round(fade * 8000 * StrictMath.sin(2 * Math.PI * i / 96));
      words[1][i] = Math.round(fade * 20 * StrictMath.sin(2 * Math.PI * i / 960));
    }
    assertThat(find(words, 16, 65_536).places()).isEmpty();
  }

  @Test
  void floatsAreJudgedToo() {
    double[][] x = WornSide.samples(WornSide.words(BITS), BITS);
    int at = (int) WornSide.musicStart() + 200_000;
    for (double[] channel : x) {
      java.util.Arrays.fill(channel, at, at + 20, 0.0);
    }
    InterruptionSearch search =
        new InterruptionSearch(
            org.groovemend.audio.AudioFormat.ieeeFloat(WornSide.RATE, 2, 32), x[0].length);
    WornSide.feed(search, null, x, 50_000);
    assertThat(search.finish().places()).hasSize(1);
  }

  static long place(Random random, int k, int of) {
    long from = WornSide.musicStart() + 20_000;
    long each = (WornSide.musicEnd() - 20_000 - from) / of;
    return from + k * each + random.nextInt((int) each / 2);
  }
}
