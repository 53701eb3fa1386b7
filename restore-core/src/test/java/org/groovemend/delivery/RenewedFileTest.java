package org.groovemend.delivery;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RenewedFileTest {

  @TempDir private Path folder;

  @Test
  void isWrittenAgainAndAgain() throws IOException {
    Path file = folder.resolve("a.json");
    for (String text : new String[] {"one", "two and more", ""}) {
      RenewedFile.write(file, text.getBytes(UTF_8));
      assertThat(file).hasContent(text);
    }
    assertThat(folder).isDirectoryContaining("glob:**a.json");
    assertThat(Files.list(folder)).hasSize(1);
  }

  @Test
  void whicheverStepFailsOneOfBothIsThereWhole() throws IOException {
    Path file = folder.resolve("a.json");
    int steps = 0;
    boolean failed = true;
    while (failed) {
      steps++;
      Files.writeString(file, "before");
      FailingSteps failing = FailingSteps.at(steps);
      if (steps <= 4) {
        assertThatThrownBy(() -> RenewedFile.write(file, "after".getBytes(UTF_8), failing))
            .isInstanceOf(IOException.class)
            .hasMessageContaining("the disk is full");
      } else {
        RenewedFile.write(file, "after".getBytes(UTF_8), failing);
      }
      failed = failing.failed;
      // the fourth step is that of the folder's entries, when the new one is in place
      assertThat(file).hasContent(steps < 4 ? "before" : "after");
      assertThat(Files.list(folder)).hasSize(1);
    }
    assertThat(steps).isEqualTo(5);
  }

  @Test
  void whatSomebodyKilledLeftIsNoObstacle() throws IOException {
    Path file = folder.resolve("a.json");
    Files.writeString(folder.resolve(OutputSet.PREFIX + "a.json"), "half of i");
    RenewedFile.write(file, "whole".getBytes(UTF_8));
    assertThat(file).hasContent("whole");
    assertThat(Files.list(folder)).hasSize(1);
  }
}
