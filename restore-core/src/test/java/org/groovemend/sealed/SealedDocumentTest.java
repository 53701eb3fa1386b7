package org.groovemend.sealed;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.ledger.Sha256;
import org.junit.jupiter.api.Test;

class SealedDocumentTest {

  private static final Map<String, Object> CONTENT = content();

  private static Map<String, Object> content() {
    Map<String, Object> content = new LinkedHashMap<>();
    content.put("words", "two spaces  and\ta tab, Käthe \ud83d\ude00");
    content.put("list", List.of(1L, 2.5, "3", List.of(), Map.of("deep", true)));
    content.put("none", null);
    return content;
  }

  @Test
  void isReadAsItWasWritten() throws Exception {
    byte[] bytes = SealedDocument.of(CONTENT).bytes();
    SealedDocument read = SealedDocument.parse(bytes, "it");
    assertThat(read.content()).isEqualTo(CONTENT);
    assertThat(read.bytes()).isEqualTo(bytes);
  }

  /** The seal by the words of the page, from the file's text alone. */
  @Test
  void sealIsTheDigestOfTheRest() {
    SealedDocument document = SealedDocument.of(Map.of("a", 1, "z", "x"));
    assertThat(document.seal()).isEqualTo(Sha256.of("{\"a\":1,\"z\":\"x\"}".getBytes(UTF_8)));
    assertThat(new String(document.bytes(), UTF_8))
        .isEqualTo("{\"a\":1,\"seal\":\"" + document.seal() + "\",\"z\":\"x\"}\n");
  }

  @Test
  void everyFlippedBitIsNoticed() {
    byte[] bytes = SealedDocument.of(CONTENT).bytes();
    for (int bit = 0; bit < 8 * bytes.length; bit++) {
      byte[] other = bytes.clone();
      other[bit / 8] ^= (byte) (1 << bit % 8);
      assertThatThrownBy(() -> SealedDocument.parse(other, "it"))
          .as("bit %d", bit)
          .isInstanceOf(SealedDocumentException.class)
          .hasMessageStartingWith("it ");
    }
  }

  @Test
  void everyShorteningAndWhatFollowsIsNoticed() {
    byte[] bytes = SealedDocument.of(CONTENT).bytes();
    for (int length = 0; length < bytes.length; length++) {
      byte[] other = Arrays.copyOf(bytes, length);
      assertThatThrownBy(() -> SealedDocument.parse(other, "it"))
          .isInstanceOf(SealedDocumentException.class);
    }
    byte[] longer = Arrays.copyOf(bytes, bytes.length + 1);
    longer[bytes.length] = '\n';
    assertThatThrownBy(() -> SealedDocument.parse(longer, "it"))
        .isInstanceOf(SealedDocumentException.class);
  }

  @Test
  void anotherOrderIsAnotherForm() {
    String text = new String(SealedDocument.of(Map.of("a", 1, "z", 2)).bytes(), UTF_8);
    String turned = text.replace("{\"a\":1,", "{").replace("}", ",\"a\":1}");
    assertThatThrownBy(() -> SealedDocument.parse(turned.getBytes(UTF_8), "it"))
        .isInstanceOf(SealedDocumentException.class)
        .hasMessageContaining("RFC 8785");
  }
}
