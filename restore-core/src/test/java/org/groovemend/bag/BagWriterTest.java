package org.groovemend.bag;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.delivery.OutputIsInputException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is written over, and what remains of a bag that was not finished. */
class BagWriterTest {

  private static final Set<DigestAlgorithm> SHA256 = Set.of(DigestAlgorithm.SHA256);

  @TempDir private Path dir;
  private Path bag;

  @BeforeEach
  void place() {
    bag = dir.resolve("out/a side");
  }

  private void write(boolean replace) throws IOException {
    SmallBag.write(bag, replace, SHA256);
  }

  @Test
  void theSameBagIsWrittenAgainByteForByte() throws IOException {
    write(false);
    byte[] tags = Files.readAllBytes(bag.resolve("tagmanifest-sha256.txt"));
    assertThatThrownBy(() -> write(false)).isInstanceOf(OutputExistsException.class);
    write(true);
    assertThat(Files.readAllBytes(bag.resolve("tagmanifest-sha256.txt"))).isEqualTo(tags);
  }

  @Test
  void onlyABagIsReplacedAndNoStrangersFile() throws IOException {
    write(false);
    Path note = Files.writeString(bag.resolve("note.txt"), "mine");
    assertThatThrownBy(() -> write(true)).hasMessageContaining("holds note.txt");
    Files.delete(note);
    Path input = bag.resolve("data/empty");
    assertThatThrownBy(() -> BagWriter.open(bag, true, List.of(input), SHA256))
        .isInstanceOf(OutputIsInputException.class);
    bag = Files.createDirectory(dir.resolve("holidays"));
    Files.writeString(bag.resolve("beach.txt"), "x");
    assertThatThrownBy(() -> write(true)).hasMessageContaining("is no bag");
    assertThat(bag.resolve("beach.txt")).exists();
  }

  @Test
  void nothingRemainsOfABagThatWasNotFinished() throws IOException {
    try (BagWriter writer = BagWriter.open(bag, false, List.of(), SHA256)) {
      Files.writeString(writer.payload("a"), "abc");
      for (String label : List.of("", " x", "a:b", "a\nb", "payload-oxum", "Bagging-Date")) {
        assertThatThrownBy(() -> writer.info(label, "x"))
            .isInstanceOf(IllegalArgumentException.class);
      }
      assertThatThrownBy(() -> writer.payload("../bagit.txt/../../x"))
          .isInstanceOf(IllegalArgumentException.class);
    }
    assertThat(dir.resolve("out")).doesNotExist();
    assertThatThrownBy(() -> BagWriter.open(bag, false, List.of(), Set.of(DigestAlgorithm.MD5)))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
