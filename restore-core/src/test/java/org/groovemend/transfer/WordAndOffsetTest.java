package org.groovemend.transfer;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;

/** Offsets and empty bits that the test itself put there. */
class WordAndOffsetTest {

  private static WordTruth truth(long[][] words, int bits) {
    WordMeter meter = new WordMeter(WornSide.format(bits));
    WornSide.feed(meter, words, bits);
    return meter.finish();
  }

  @Test
  void twentyFourBitsAreTwentyFour() {
    WordTruth found = truth(WornSide.words(24), 24);
    assertThat(found.usedBits()).isEqualTo(24);
    assertThat(found.coarserSeconds()).isZero();
    assertThat(found.codesMet()).isGreaterThan(0.6);
  }

  @Test
  void sixteenInTwentyFourAreToldEvenWithAConstantAdded() {
    for (long constant : new long[] {0, 77}) {
      long[][] words = WornSide.words(16);
      for (long[] channel : words) {
        for (int i = 0; i < channel.length; i++) {
          channel[i] = (channel[i] << 8) + constant;
        }
      }
      assertThat(truth(words, 24).usedBits()).isEqualTo(16);
    }
  }

  @Test
  void sixteenBitsTimesAGainAreTold() {
    long[][] words = WornSide.words(16);
    for (long[] channel : words) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] = Math.round(channel[i] * 187.3);
      }
    }
    WordTruth found = truth(words, 24);
    assertThat(found.usedBits()).isEqualTo(24);
    assertThat(found.codesMet()).isLessThan(0.05);
  }

  @Test
  void aPieceFromElsewhereIsTold() {
    long[][] words = WornSide.words(24);
    for (long[] channel : words) {
      for (int i = 5 * WornSide.RATE; i < 9 * WornSide.RATE; i++) {
        channel[i] &= ~0xffL;
      }
    }
    assertThat(truth(words, 24).coarserSeconds()).isBetween(3L, 4L);
  }

  @Test
  void offsetAndItsDriftAreMeasured() {
    double[][] x = WornSide.samples(WornSide.words(24), 24);
    double[] own = new double[2];
    int frames = x[0].length;
    Random random = new Random(3);
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < frames; i++) {
        own[c] += x[c][i] / frames;
        x[c][i] += 0.01 + 0.02 * i / frames + 1e-4 * random.nextGaussian();
      }
    }
    OffsetMeter meter = new OffsetMeter(WornSide.RATE, 2, frames);
    WornSide.feed(meter, null, x, 65_536);
    for (int c = 0; c < 2; c++) {
      Offset found = meter.finish().get(c);
      // the mean of a ramp from 0.01 to 0.03; its six parts of 5 s differ by five sixths of 0.02
      assertThat(found.mean() - own[c]).isCloseTo(0.02, Assertions.within(1e-6));
      assertThat(found.drift()).isCloseTo(0.02 * 5 / 6, Assertions.within(1e-4));
    }
  }

  @Test
  void headroomOfMusicAndOfClicksAreTwoThings() {
    double[][] x = new double[1][10 * WornSide.RATE];
    for (int i = 0; i < x[0].length; i++) {
      x[0][i] = 0.1 * Math.sin(2 * Math.PI * 300.0 * i / WornSide.RATE);
    }
    for (int at = 50_000; at < x[0].length; at += 60_000) {
      java.util.Arrays.fill(x[0], at, at + 40, 0.9);
    }
    HeadroomMeter meter = new HeadroomMeter(WornSide.RATE, 1);
    WornSide.feed(meter, null, x, 65_536);
    assertThat(meter.finish()).isCloseTo(0.1, Assertions.within(0.005));
  }
}
