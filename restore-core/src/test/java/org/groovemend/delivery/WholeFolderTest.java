package org.groovemend.delivery;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WholeFolderTest {

  private static final int MORE_STEPS_THAN_THERE_ARE = 100;

  @TempDir Path root;

  private static void run(Path folder, boolean replace, FileSteps steps) throws IOException {
    try (WholeFolder whole = WholeFolder.open(folder, replace, List.of(), steps)) {
      for (String name : List.of("top.txt", "data/a.wav", "data/deep/b.wav")) {
        try (OutputStream out = whole.create(name)) {
          out.write(("new " + name).getBytes(StandardCharsets.UTF_8));
        }
      }
      whole.commit();
    }
  }

  private static Map<String, String> content(Path folder) throws IOException {
    Map<String, String> content = new TreeMap<>();
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.filter(Files::isRegularFile).toList()) {
        content.put(folder.relativize(path).toString(), Files.readString(path));
      }
    }
    return content;
  }

  private static final Map<String, String> NEW =
      Map.of(
          "top.txt",
          "new top.txt",
          Path.of("data", "a.wav").toString(),
          "new data/a.wav",
          Path.of("data", "deep", "b.wav").toString(),
          "new data/deep/b.wav");

  @Test
  void everythingAppears() throws IOException {
    Path folder = root.resolve("x/y/bag");
    run(folder, false, new DiskSteps());
    assertThat(content(folder)).isEqualTo(NEW);
    try (Stream<Path> beside = Files.list(folder.getParent())) {
      assertThat(beside).containsExactly(folder);
    }
  }

  @Test
  void whicheverStepFailsNothingIsThere() throws IOException {
    int last = 0;
    for (int n = 1; n < MORE_STEPS_THAN_THERE_ARE; n++) {
      Path top = Files.createDirectory(root.resolve("n" + n));
      FailingSteps steps = FailingSteps.at(n);
      try {
        run(top.resolve("x/bag"), false, steps);
        if (!steps.failed) {
          break;
        }
      } catch (IOException e) {
        assertThat(e.getMessage()).isNotBlank();
      }
      last = n;
      Map<String, String> left = content(top);
      // a failure after the rename leaves the whole folder, one before it nothing
      Path bag = top.resolve("x/bag");
      if (Files.exists(bag)) {
        assertThat(content(bag)).as("step " + n + " of " + steps.taken).isEqualTo(NEW);
      } else if (!steps.taken.get(n - 1).equals("delete")) {
        assertThat(left).as("step " + n + " of " + steps.taken).isEmpty();
      }
    }
    assertThat(last).isGreaterThan(10);
  }

  @Test
  void whicheverStepFailsTheOldFolderIsThereOrTheNewOne() throws IOException {
    for (int n = 1; n < MORE_STEPS_THAN_THERE_ARE; n++) {
      Path folder = Files.createDirectory(root.resolve("r" + n));
      Path bag = folder.resolve("bag");
      Files.createDirectories(bag.resolve("old"));
      Files.writeString(bag.resolve("old/file"), "old");
      FailingSteps steps = FailingSteps.at(n);
      try {
        run(bag, true, steps);
        if (!steps.failed) {
          break;
        }
      } catch (IOException e) {
        assertThat(e.getMessage()).isNotBlank();
      }
      assertThat(content(bag))
          .as("step " + n + " of " + steps.taken)
          .isIn(NEW, Map.of(Path.of("old", "file").toString(), "old"));
    }
  }

  @Test
  void whatIsThereIsRefused() throws IOException {
    Path folder = Files.createDirectory(root.resolve("bag"));
    Path input = Files.writeString(folder.resolve("original.wav"), "x");
    assertThatThrownBy(() -> WholeFolder.open(folder, false, List.of()))
        .isInstanceOf(OutputExistsException.class);
    assertThatThrownBy(() -> WholeFolder.open(folder, true, List.of(input)))
        .isInstanceOf(OutputIsInputException.class);
    assertThatThrownBy(() -> WholeFolder.open(input, true, List.of()))
        .hasMessageContaining("is a file and cannot be replaced by a folder");
    assertThat(content(folder)).isEqualTo(Map.of("original.wav", "x"));
  }

  @Test
  void namesThatLeadElsewhereAreRefused() throws IOException {
    try (WholeFolder whole = WholeFolder.open(root.resolve("bag"), false, List.of())) {
      for (String name : List.of("", ".", "..", "../x", "/x", "a/../../x")) {
        assertThatThrownBy(() -> whole.create(name))
            .as(name)
            .isInstanceOf(IllegalArgumentException.class);
      }
      assertThatThrownBy(() -> whole.create("a\0b"))
          .isInstanceOf(IOException.class)
          .hasMessageContaining("file names cannot have here");
    }
    assertThat(root.resolve("bag")).doesNotExist();
  }

  /**
   * Trouble of a full disk met by a writer that knows no folder becomes the sentence for people.
   */
  @Test
  void aFullDiskIsExplainedAndOtherTroubleLeft() {
    IOException full = new IOException("No space left on device");
    assertThat(WholeFolder.explained(full, Path.of("made")))
        .hasMessageContaining("made: the disk is full")
        .hasCause(full);
    IOException other = new IOException("side.wav: ends within a chunk");
    assertThat(WholeFolder.explained(other, Path.of("made"))).isSameAs(other);
  }
}
