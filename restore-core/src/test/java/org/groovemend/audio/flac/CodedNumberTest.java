package org.groovemend.audio.flac;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

class CodedNumberTest {

  /** Up to 21 bits the coding is UTF-8, for which the platform has an independent coder. */
  @Test
  void agreesWithUtf8() {
    byte[] out = new byte[CodedNumber.MAX_BYTES];
    for (int code : new int[] {0, 0x7f, 0x80, 0x7ff, 0x800, 0xd7ff, 0xffff, 0x10000, 0x10ffff}) {
      byte[] utf8 = Character.toString(code).getBytes(StandardCharsets.UTF_8);
      assertThat(CodedNumber.put(code, out, 0)).isEqualTo(utf8.length);
      assertThat(out).startsWith(utf8);
    }
  }

  @Test
  void everyLengthReturnsTheNumber() {
    byte[] out = new byte[CodedNumber.MAX_BYTES + 1];
    for (int bits = 0; bits <= 36; bits++) {
      for (long value : new long[] {(1L << bits) - 1, 1L << Math.min(bits, 35)}) {
        int length = CodedNumber.put(value, out, 1);
        assertThat(CodedNumber.length(out[1])).isEqualTo(length);
        assertThat(CodedNumber.get(out, 1)).isEqualTo(value);
      }
    }
    assertThat(CodedNumber.put((1L << 36) - 1, out, 0)).isEqualTo(7);
    assertThat(CodedNumber.put(0x7fffffffL, out, 0)).isEqualTo(6);
  }

  @Test
  void refusesWhatIsNotACodedNumber() {
    assertThat(CodedNumber.length((byte) 0xff)).isZero();
    assertThat(CodedNumber.length((byte) 0x80)).isZero();
    assertThat(CodedNumber.get(new byte[] {(byte) 0xc3, 0x29}, 0)).isEqualTo(-1);
  }
}
