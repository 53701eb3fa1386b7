package org.groovemend.tags;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** ID3 tags and INFO lists taken apart by hand. */
class TagBytesTest {

  /** ID3 2.4.0: sizes of seven bits a byte, UTF-8 (3) in every frame, no flags, no padding. */
  @Test
  void id3IsWhatTheSpecificationSays() throws IOException {
    Cover cover = Cover.of(Examples.picture("png", 31, 17));
    Tags tags = Examples.FULL.with(TagField.COMMENT, "ž".repeat(20_000));
    byte[] id3 = TagParts.aiffId3(tags, cover);
    assertThat(Arrays.copyOf(id3, 6)).isEqualTo(new byte[] {'I', 'D', '3', 4, 0, 0});
    assertThat(sevenBits(id3, 6)).isEqualTo(id3.length - 10);
    List<String> frames = new ArrayList<>();
    for (int at = 10; at < id3.length; at += 10 + sevenBits(id3, at + 4)) {
      String name = new String(id3, at, 4, StandardCharsets.ISO_8859_1);
      assertThat(id3[at + 8] | id3[at + 9]).as(name).isZero();
      assertThat(id3[at + 10]).as(name).isEqualTo((byte) 3);
      frames.add(name);
      if (name.equals("TIT2")) {
        assertThat(new String(id3, at + 11, sevenBits(id3, at + 4) - 1, StandardCharsets.UTF_8))
            .isEqualTo(tags.get(TagField.TITLE));
      }
    }
    assertThat(frames).contains("TIT2", "COMM", "APIC", "TCOP").hasSize(22);
    assertThat(frames.stream().filter("TXXX"::equals)).hasSize(6);
    String noYear =
        new String(
            TagParts.aiffId3(Tags.none().with(TagField.RIGHTS, "x"), null), StandardCharsets.UTF_8);
    assertThat(noYear).contains("TXXX").doesNotContain("TCOP");
  }

  private static int sevenBits(byte[] bytes, int at) {
    int value = 0;
    for (int i = at; i < at + 4; i++) {
      assertThat(bytes[i]).isNotNegative();
      value = value << 7 | bytes[i];
    }
    return value;
  }

  /** Each INFO text by its place in the bytes: names, sizes, NUL, padding. */
  @Test
  void infoListIsWhatTheSpecificationSays() {
    Tags tags = Tags.none().with(TagField.TITLE, "Žo").with(TagField.SHELF_MARK, "xy");
    assertThat(InfoList.content(tags))
        .isEqualTo(
            "INFOINAM\4\0\0\0\u00c5\u00bdo\0IARL\3\0\0\0xy\0\0"
                .getBytes(StandardCharsets.ISO_8859_1));
    assertThat(InfoList.content(Tags.none().with(TagField.SIDE, "A"))).isEmpty();
  }
}
