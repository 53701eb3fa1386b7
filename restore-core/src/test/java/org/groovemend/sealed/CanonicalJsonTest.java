package org.groovemend.sealed;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import org.groovemend.ledger.Sha256;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** RFC 8785: its sample of section 3.2, its order of names of 3.2.3, numbers of appendix B. */
class CanonicalJsonTest {

  @Test
  void sampleOfTheStandard() throws IOException {
    String sample =
        """
        {
          "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
          "string": "\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\"\\/",
          "literals": [null, true, false]
        }""";
    byte[] canonical = CanonicalJson.canonical(sample);
    assertThat(new String(canonical, UTF_8))
        .isEqualTo(
            "{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],"
                + "\"string\":\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}");
    assertThat(canonical).hasSize(118);
    assertThat(Sha256.of(canonical))
        .isEqualTo("2d5e01a318d0f0879ab568c4be289c8b1f64ef8921a53c6277d5e069978baacb");
    assertThat(CanonicalJson.bytes(CanonicalJson.read(sample.getBytes(UTF_8))))
        .isEqualTo(canonical);
  }

  @Test
  void namesInOrderOfTheirUnits() {
    Map<String, Object> names = new LinkedHashMap<>();
    for (String name :
        new String[] {"\u20ac", "\r", "\ufb33", "1", "\ud83d\ude00", "\u0080", "\u00f6"}) {
      names.put(name, 1);
    }
    assertThat(new String(CanonicalJson.bytes(names), UTF_8))
        .isEqualTo(
            "{\"\\r\":1,\"1\":1,\"\u0080\":1,\"\u00f6\":1,\"\u20ac\":1,\"\ud83d\ude00\":1,\"\ufb33\":1}");
  }

  @ParameterizedTest
  @CsvSource({
    "-0, 0",
    "1e21, 1e+21",
    "1e20, 100000000000000000000",
    "1e-7, 1e-7",
    "1e-6, 0.000001",
    "9007199254740991, 9007199254740991",
    "333333333.33333325, 333333333.33333325",
    "5e-324, 5e-324",
    "1.7976931348623157e308, 1.7976931348623157e+308"
  })
  void numbers(String given, String canonical) throws IOException {
    assertThat(new String(CanonicalJson.canonical("[" + given + "]"), UTF_8))
        .isEqualTo("[" + canonical + "]");
  }

  @Test
  void whatIsNoJsonIsRefused() {
    assertThatThrownBy(() -> CanonicalJson.bytes(Map.of("a", Double.NaN)))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> CanonicalJson.read("{\"a\":1,\"a\":2}".getBytes(UTF_8)))
        .isInstanceOf(IOException.class);
    assertThatThrownBy(() -> CanonicalJson.read("{\"a\":1} 2".getBytes(UTF_8)))
        .isInstanceOf(IOException.class);
  }
}
