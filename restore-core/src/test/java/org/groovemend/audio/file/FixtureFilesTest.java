package org.groovemend.audio.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.FixtureFiles.Fixture;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class FixtureFilesTest {

  static List<Fixture> good() {
    return FixtureFiles.all().stream().filter(Fixture::good).toList();
  }

  static List<Fixture> bad() {
    return FixtureFiles.all().stream().filter(f -> !f.good()).toList();
  }

  private static Path folder() throws URISyntaxException {
    URL url = FixtureFilesTest.class.getResource("/fixtures/audio/good/001-plain-16.wav");
    return Path.of(url.toURI()).getParent().getParent();
  }

  @Test
  void committedFilesAreWhatTheGeneratorMakes() throws Exception {
    for (Fixture fixture : FixtureFiles.all()) {
      Path path = folder().resolve(fixture.name());
      assertThat(path).hasBinaryContent(fixture.bytes());
      if (!fixture.good() || !fixture.expected().isEmpty()) {
        assertThat(FixtureFiles.expectation(path)).hasContent(fixture.expected() + "\n");
      }
    }
  }

  @Test
  void readmeListsEveryFile() throws Exception {
    String readme = Files.readString(folder().resolve("README.md"), StandardCharsets.UTF_8);
    Set<String> missing =
        FixtureFiles.all().stream()
            .map(Fixture::name)
            .filter(name -> !readme.contains("`" + name + "`"))
            .collect(Collectors.toSet());
    assertThat(missing).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("good")
  void goodFileIsReadWithItsNoticesAndComesBack(Fixture fixture) throws Exception {
    Path path = folder().resolve(fixture.name());
    try (SideReader side = SideFiles.open(path)) {
      assertThat(String.join("\n", side.notices())).isEqualTo(fixture.expected());
      long[][] words = Sides.read(side);
      long[][] made = FixtureFiles.words(side.format());
      for (int c = 0; c < words.length; c++) {
        assertThat(made[c]).startsWith(words[c]);
      }
      assertThat(Sides.rebuild(side)).isEqualTo(fixture.bytes());
    }
  }

  @ParameterizedTest
  @MethodSource("bad")
  void badFileIsRefusedInTheExpectedWords(Fixture fixture) throws Exception {
    Path path = folder().resolve(fixture.name());
    InputRejectedException refusal =
        catchThrowableOfType(InputRejectedException.class, () -> readAll(path));
    assertThat(refusal).as(fixture.name()).isNotNull();
    assertThat(refusal).hasMessage(path + ": " + fixture.expected());
    assertThat(refusal.path()).isEqualTo(path);
  }

  @Test
  void everyBadFileHasItsExpectation() throws Exception {
    try (Stream<Path> files = Files.list(folder().resolve("bad"))) {
      assertThat(files.filter(f -> !f.toString().endsWith(".expect.txt")))
          .allSatisfy(f -> assertThat(FixtureFiles.expectation(f)).exists());
    }
  }

  private static void readAll(Path path) throws IOException {
    try (SideReader side = SideFiles.open(path)) {
      Sides.read(side);
    }
  }
}
