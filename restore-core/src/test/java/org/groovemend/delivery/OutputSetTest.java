package org.groovemend.delivery;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class OutputSetTest {

  private static final List<String> NAMES = List.of("a.wav", "a.report.html", "a.ledger.jsonl");
  private static final int MORE_STEPS_THAN_THERE_ARE = 100;

  @TempDir Path root;

  private static void write(OutputSet set, String name, String text) throws IOException {
    try (OutputStream out = set.create(name)) {
      out.write(text.getBytes(StandardCharsets.UTF_8));
    }
  }

  private static void writeAll(OutputSet set) throws IOException {
    for (String name : NAMES) {
      write(set, name, "new " + name);
    }
  }

  /** A whole run, as a job does it. */
  private static void run(Path folder, boolean replace, FileSteps steps) throws IOException {
    try (OutputSet set = OutputSet.open(folder, NAMES, replace, List.of(), steps)) {
      writeAll(set);
      set.commit();
    }
  }

  /** Every file and folder below, with its text. */
  private static Map<String, String> content(Path folder) throws IOException {
    Map<String, String> content = new TreeMap<>();
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.toList()) {
        String text = Files.isDirectory(path) ? "folder" : Files.readString(path);
        content.put(folder.relativize(path).toString(), text);
      }
    }
    return content;
  }

  private static Map<String, String> whole(String folder) {
    Map<String, String> content = new TreeMap<>(Map.of("", "folder", folder, "folder"));
    NAMES.forEach(name -> content.put(Path.of(folder, name).toString(), "new " + name));
    return content;
  }

  @Test
  void allFilesAppearAndNothingElse() throws IOException {
    run(root.resolve("out"), false, new DiskSteps());
    assertThat(content(root)).isEqualTo(whole("out"));
  }

  @Test
  void nothingAppearsBeforeTheCommitNorWithoutIt() throws IOException {
    Path out = root.resolve("deep/er/out");
    try (OutputSet set = OutputSet.open(out, NAMES, false)) {
      writeAll(set);
      assertThat(NAMES).noneMatch(name -> Files.exists(out.resolve(name)));
      assertThat(set.temporary("a.wav").getParent().getParent()).isEqualTo(out);
      assertThat(set.temporary("a.wav").getParent().getFileName().toString()).startsWith(".");
    }
    assertThat(content(root)).containsOnlyKeys("");
  }

  @Test
  void theLastNameIsPutInPlaceLast() throws IOException {
    FailingSteps steps = FailingSteps.at(-1);
    run(root.resolve("out"), false, steps);
    assertThat(steps.taken.stream().filter(s -> s.startsWith("move")).toList())
        .containsExactly(
            "move a.wav a.wav",
            "move a.report.html a.report.html",
            "move a.ledger.jsonl a.ledger.jsonl");
    assertThat(steps.taken.lastIndexOf("force"))
        .isLessThan(steps.taken.indexOf("move a.wav a.wav"));
    assertThat(steps.taken.indexOf("forceFolder"))
        .isGreaterThan(steps.taken.indexOf("move a.ledger.jsonl a.ledger.jsonl"));
  }

  @Test
  void whicheverStepFailsTheSetIsWholeOrAbsent() throws IOException {
    boolean failing = true;
    for (int n = 1; failing; n++) {
      assertThat(n).isLessThan(MORE_STEPS_THAN_THERE_ARE);
      Path base = Files.createDirectory(root.resolve("fresh" + n));
      FailingSteps steps = FailingSteps.at(n);
      IOException thrown =
          catchThrowableOfType(IOException.class, () -> run(base.resolve("out"), false, steps));
      failing = steps.failed;
      assertThat(thrown != null).as("step %d %s", n, steps.taken).isEqualTo(failing);
      assertWholeOrAbsent(base, steps, Map.of("", "folder"));
    }
  }

  @Test
  void whicheverStepFailsInReplacingTheOldSetOrTheNewOneIsThere() throws IOException {
    boolean failing = true;
    for (int n = 1; failing; n++) {
      assertThat(n).isLessThan(MORE_STEPS_THAN_THERE_ARE);
      Path base = Files.createDirectory(root.resolve("replaced" + n));
      Path out = Files.createDirectory(base.resolve("out"));
      for (String name : NAMES) {
        Files.writeString(out.resolve(name), "old " + name);
      }
      Map<String, String> before = content(base);
      FailingSteps steps = FailingSteps.at(n);
      IOException thrown = catchThrowableOfType(IOException.class, () -> run(out, true, steps));
      failing = steps.failed;
      assertThat(thrown != null).as("step %d %s", n, steps.taken).isEqualTo(failing);
      assertWholeOrAbsent(base, steps, before);
    }
  }

  /**
   * What is in the way of being exactly as before or exactly new can only be what a failed delete
   * left.
   */
  private static void assertWholeOrAbsent(Path base, FailingSteps steps, Map<String, String> before)
      throws IOException {
    Map<String, String> after = content(base);
    boolean cleaned = after.keySet().stream().noneMatch(path -> path.contains(".groovemend-"));
    if (!cleaned) {
      assertThat(steps.taken).as("only a failed delete leaves something").contains("delete");
      after.keySet().removeIf(path -> path.contains(".groovemend-"));
    }
    if (after.equals(before)) {
      return;
    }
    if (after.equals(Map.of("", "folder", "out", "folder"))) {
      assertThat(cleaned)
          .as("an empty new folder is left only around what could not be removed")
          .isFalse();
      return;
    }
    assertThat(after).as("%s", steps.taken).isEqualTo(whole("out"));
  }

  @Test
  void aDiskThatFailsForGoodAmidTheMovesLosesNothingThatWasThere() throws IOException {
    Path out = Files.createDirectory(root.resolve("out"));
    for (String name : NAMES) {
      Files.writeString(out.resolve(name), "old " + name);
    }
    // 1 hidden folder, 3 create, 3 force, 3 aside, 1 in place, then never again
    FailingSteps steps = new FailingSteps(n -> n > 11, "Input/output error");
    assertThatThrownBy(() -> run(out, true, steps))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("move it by hand")
        .hasMessageContaining("a.ledger.jsonl");
    Map<String, String> after = content(out);
    for (String name : NAMES) {
      assertThat(after).containsValue("old " + name);
    }
    assertThat(after).doesNotContainKey("a.ledger.jsonl");
  }

  @Test
  void aFileThatExistsIsRefusedBeforeAnyWork() throws IOException {
    Files.writeString(root.resolve("a.report.html"), "old");
    assertThatThrownBy(() -> OutputSet.open(root, NAMES, false))
        .isInstanceOf(OutputExistsException.class)
        .hasMessageContaining("a.report.html exists already; nothing was written");
    assertThat(content(root)).containsOnlyKeys("", "a.report.html");
  }

  @Test
  void aFileThatAppearsMeanwhileIsNotReplaced() throws IOException {
    try (OutputSet set = OutputSet.open(root, NAMES, false)) {
      writeAll(set);
      Files.writeString(root.resolve("a.report.html"), "somebody else's");
      assertThatThrownBy(set::commit).isInstanceOf(OutputExistsException.class);
    }
    assertThat(content(root)).isEqualTo(Map.of("", "folder", "a.report.html", "somebody else's"));
  }

  @Test
  void anInputIsNeverWrittenOverByWhateverName() throws IOException {
    Path original = Files.writeString(root.resolve("original.wav"), "the one");
    Files.createLink(root.resolve("a.wav"), original);
    assertThatThrownBy(() -> OutputSet.open(root, NAMES, true, List.of(original)))
        .isInstanceOf(OutputIsInputException.class)
        .hasMessageContaining("never written over");
    Files.delete(root.resolve("a.wav"));
    Files.createSymbolicLink(root.resolve("a.wav"), original);
    assertThatThrownBy(() -> OutputSet.open(root, NAMES, true, List.of(original)))
        .isInstanceOf(OutputIsInputException.class);
    assertThatThrownBy(
            () ->
                OutputSet.open(
                    root.resolve("../" + root.getFileName()),
                    List.of("original.wav"),
                    true,
                    List.of(original)))
        .isInstanceOf(OutputIsInputException.class);
    assertThat(Files.readString(original)).isEqualTo("the one");
  }

  @Test
  void aSetWithAFileMissingIsNotCommitted() throws IOException {
    try (OutputSet set = OutputSet.open(root, NAMES, false)) {
      write(set, "a.wav", "x");
      assertThatThrownBy(set::commit)
          .isInstanceOf(IllegalStateException.class)
          .hasMessageContaining("\"a.report.html\" was not written");
    }
    assertThat(content(root)).containsOnlyKeys("");
  }

  @Test
  void namesThatLeadElsewhereAreRefused() {
    for (String name : List.of("../x", "b/x", "", ".", "..", ".replaced-1")) {
      assertThatThrownBy(() -> OutputSet.open(root, List.of(name), false))
          .as(name)
          .isInstanceOf(IllegalArgumentException.class);
    }
    assertThatThrownBy(() -> OutputSet.open(root, List.of("a", "a"), false))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void troublesAreToldInSentences() throws IOException {
    Path file = Files.writeString(root.resolve("file"), "x");
    assertThatThrownBy(() -> OutputSet.open(file.resolve("out"), NAMES, false))
        .isInstanceOf(IOException.class)
        .hasMessage(file + " is a file, not a folder; choose another folder.");
    assertThat(WriteTrouble.explainFolder(new NoSuchFileException("x"), root))
        .hasMessage(root + ": no folder can be made there; choose another one.");
    assertThatThrownBy(() -> run(root.resolve("full"), false, FailingSteps.at(3)))
        .hasMessageContaining("a.wav: the disk is full")
        .hasMessageContaining("Make room");
    FailingSteps denied = new FailingSteps(n -> n == 1, "Permission denied");
    assertThatThrownBy(() -> run(root.resolve("denied"), false, denied))
        .hasMessageContaining("no permission to write there");
    Files.createDirectory(root.resolve("a.wav"));
    assertThatThrownBy(() -> OutputSet.open(root, NAMES, true)).hasMessageContaining("is a folder");
  }

  /** Two attempts at the same work, then one of them put in place, as by another process. */
  private static void leaveTwiceAndTakeUpOne(Path folder, boolean replace, FileSteps steps)
      throws IOException {
    String hidden;
    try (OutputSet set = OutputSet.open(folder, NAMES, replace)) {
      writeAll(set);
      hidden = set.leave();
    }
    try (OutputSet other = OutputSet.open(folder, NAMES, replace)) {
      writeAll(other);
      assertThat(other.leave()).isNotEqualTo(hidden);
    }
    try (OutputSet set = OutputSet.takeUp(folder, hidden, NAMES, replace, List.of(), steps)) {
      set.commit();
    }
  }

  @Test
  void whatOneLeavesAnotherPutsInPlaceAndASecondAttemptStaysHidden() throws IOException {
    Path out = root.resolve("out");
    leaveTwiceAndTakeUpOne(out, false, new DiskSteps());
    assertThat(Leftovers.remove(out)).isEqualTo(1);
    assertThat(content(root)).isEqualTo(whole("out"));
  }

  @Test
  void whicheverStepFailsInTakingUpTheOldSetOrTheNewOneIsThere() throws IOException {
    boolean failing = true;
    for (int n = 1; failing; n++) {
      assertThat(n).isLessThan(MORE_STEPS_THAN_THERE_ARE);
      Path base = Files.createDirectory(root.resolve("taken" + n));
      Path out = Files.createDirectory(base.resolve("out"));
      for (String name : NAMES) {
        Files.writeString(out.resolve(name), "old " + name);
      }
      Map<String, String> before = content(base);
      FailingSteps steps = FailingSteps.at(n);
      IOException thrown =
          catchThrowableOfType(IOException.class, () -> leaveTwiceAndTakeUpOne(out, true, steps));
      failing = steps.failed;
      assertThat(thrown != null).as("step %d %s", n, steps.taken).isEqualTo(failing);
      Map<String, String> visible = content(base);
      visible.keySet().removeIf(path -> path.contains(".groovemend-"));
      assertThat(visible).as("step %d", n).isIn(before, whole("out"));
    }
  }

  @Test
  void aSetThatWasLeftIsNotTakenUpOverFilesOfOthersNorFromElsewhere() throws IOException {
    Path out = root.resolve("out");
    String hidden;
    try (OutputSet set = OutputSet.open(out, NAMES, false)) {
      assertThatThrownBy(set::leave).isInstanceOf(IllegalStateException.class);
      writeAll(set);
      hidden = set.leave();
      assertThatThrownBy(set::commit).isInstanceOf(IllegalStateException.class);
    }
    Files.writeString(out.resolve("a.wav"), "somebody's");
    assertThatThrownBy(() -> OutputSet.takeUp(out, hidden, NAMES, false, List.of()))
        .isInstanceOf(OutputExistsException.class);
    assertThat(content(out)).isEqualTo(Map.of("", "folder", "a.wav", "somebody's"));
    assertThatThrownBy(() -> OutputSet.takeUp(out, hidden, NAMES, true, List.of()))
        .isInstanceOf(NoSuchFileException.class);
    assertThatThrownBy(() -> OutputSet.takeUp(out, "../out", NAMES, true, List.of()))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
