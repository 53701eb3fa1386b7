package org.groovemend.audio.flac;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.Random;
import org.junit.jupiter.api.Test;

class FrameCrcTest {

  private static final byte[] DIGITS = "123456789".getBytes(StandardCharsets.US_ASCII);

  /**
   * Check values of CRC-8 (07, 00) and CRC-16/UMTS (8005, 0000) in the usual catalogues: from
   * memory.
   */
  @Test
  void givesTheCatalogueCheckValues() {
    assertThat(FrameCrc.crc8(DIGITS, 0, 9)).isEqualTo(0xf4);
    assertThat(FrameCrc.crc16(DIGITS, 0, 9)).isEqualTo(0xfee8);
  }

  /**
   * The only frame of the first example file of RFC 9639 appendix D; see RfcExampleTest for the
   * whole file.
   */
  @Test
  void givesTheChecksumsOfTheFirstExampleOfTheRfc() {
    byte[] frame = HexFormat.of().parseHex("fff869180000bf0358fd0312 8baa9a".replace(" ", ""));
    assertThat(FrameCrc.crc8(frame, 0, 6)).isEqualTo(0xbf);
    assertThat(FrameCrc.crc16(frame, 0, 13)).isEqualTo(0xaa9a);
  }

  @Test
  void sixteenBytesAStepGiveWhatSingleBitsGive() {
    Random random = new Random(1);
    for (int length = 0; length < 70; length++) {
      byte[] bytes = new byte[length + 3];
      random.nextBytes(bytes);
      int slow = 0;
      for (int i = 2; i < 2 + length; i++) {
        slow ^= (bytes[i] & 0xff) << 8;
        for (int b = 0; b < 8; b++) {
          slow = slow << 1 ^ ((slow & 0x8000) != 0 ? 0x18005 : 0);
        }
      }
      assertThat(FrameCrc.crc16(bytes, 2, 2 + length)).isEqualTo(slow);
    }
  }

  @Test
  void everyFlippedBitChangesBoth() {
    for (int bit = 0; bit < 72; bit++) {
      byte[] flipped = DIGITS.clone();
      flipped[bit / 8] ^= (byte) (1 << bit % 8);
      assertThat(FrameCrc.crc8(flipped, 0, 9)).isNotEqualTo(0xf4);
      assertThat(FrameCrc.crc16(flipped, 0, 9)).isNotEqualTo(0xfee8);
    }
  }
}
