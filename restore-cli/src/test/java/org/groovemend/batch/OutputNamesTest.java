package org.groovemend.batch;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.groovemend.batch.OutputNames.Output;
import org.junit.jupiter.api.Test;

class OutputNamesTest {

  @Test
  void namesMirrorTheCollection() {
    assertThat(new OutputNames().give("shelf/box 1/Lied für Ünna.wav"))
        .isEqualTo(new Output("sides/shelf/box 1", "Lied für Ünna"));
  }

  @Test
  void sidesThatWantTheSameNameGetOthers() {
    OutputNames names = new OutputNames();
    Set<String> given = new HashSet<>();
    List<String> places =
        List.of("s/a.flac", "s/a.wav", "s/A.wav", "s/a.WAV", "s/a.flac.wav", "s/a.aiff", "t/a.wav");
    for (String place : places) {
      Output output = names.give(place);
      // no difference between capital and small letters: a disk may know none
      given.add((output.folder() + "/" + output.name()).toLowerCase(Locale.ROOT));
    }
    assertThat(given).hasSameSizeAs(places);
    assertThat(new OutputNames().give("s/a.flac").name()).isEqualTo("a");
  }

  @Test
  void longNamesAreCutBetweenCharactersAndStayDifferent() {
    OutputNames names = new OutputNames();
    String longName = "é𝄞".repeat(42);
    Output one = names.give("s/" + longName + "1.wav");
    Output other = names.give("s/" + longName + "2.wav");
    for (Output output : List.of(one, other)) {
      byte[] bytes = output.name().getBytes(StandardCharsets.UTF_8);
      // 255 bytes is what common file systems take, ".ledger.decisions.json" and the like come
      // behind
      assertThat(bytes.length).isLessThanOrEqualTo(OutputNames.LONGEST).isGreaterThan(150);
      assertThat(new String(bytes, StandardCharsets.UTF_8)).isEqualTo(output.name());
    }
    assertThat(one).isNotEqualTo(other);
  }

  @Test
  void whatASideGotOnceStaysItsOwn() {
    OutputNames names = new OutputNames();
    names.keep(new Output("sides/s", "a"));
    assertThat(names.give("s/a.wav")).isEqualTo(new Output("sides/s", "a.wav"));
  }

  @Test
  void everySideIsInOnePartAndThoseOfOneNameInTheSame() {
    int[] counts = new int[4];
    for (int i = 0; i < 400; i++) {
      int part = OutputNames.shard("s/side " + i + ".wav", 4);
      assertThat(part).isBetween(1, 4);
      assertThat(OutputNames.shard("s/SIDE " + i + ".flac", 4)).isEqualTo(part);
      counts[part - 1]++;
    }
    for (int count : counts) {
      assertThat(count).isBetween(60, 140);
    }
  }
}
