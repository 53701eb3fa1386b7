package org.groovemend.delivery;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LeftoversTest {

  @TempDir private Path dir;

  @Test
  void whatAnUnfinishedOutputLeavesIsRemovedAndNothingElse() throws IOException {
    OutputSet unfinished = OutputSet.open(dir, List.of("a.wav"), false);
    Files.writeString(unfinished.temporary("a.wav"), "half");
    Path target = Files.writeString(dir.resolve("kept.wav"), "kept");
    Path hidden = unfinished.temporary("a.wav").getParent();
    Files.createSymbolicLink(hidden.resolve("link"), target);
    Path below = Files.createDirectories(dir.resolve("below/.groovemend-1"));
    Path file = Files.writeString(dir.resolve(".groovemend-file"), "x");
    assertThat(Leftovers.remove(dir)).isEqualTo(1);
    assertThat(hidden).doesNotExist();
    assertThat(target).hasContent("kept");
    assertThat(below).exists();
    assertThat(file).exists();
    assertThat(Leftovers.remove(dir)).isZero();
    assertThat(Leftovers.remove(dir.resolve("nowhere"))).isZero();
  }
}
