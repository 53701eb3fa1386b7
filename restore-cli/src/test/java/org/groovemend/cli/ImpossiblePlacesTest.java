package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Places where nothing can be written, sides that would write over each other, folders in place of
 * files.
 */
@Tag("long")
class ImpossiblePlacesTest {

  @TempDir private Path dir;
  private Path side;
  private Path file;

  @BeforeEach
  void makeFiles() throws IOException {
    side = Files.writeString(dir.resolve("side.wav"), "never opened");
    file = Files.writeString(dir.resolve("a.aiff"), "in the way");
  }

  /** Fails with the code, one sentence with the words in it, and without writing anything. */
  private void fails(int code, List<String> words, Object... args) throws IOException {
    List<Path> before = all();
    CommandRun run = CommandRun.of(args);
    assertEquals(code, run.code(), run.err());
    assertEquals("", run.out());
    assertEquals(1, run.err().lines().count(), run.err());
    words.forEach(word -> assertTrue(run.err().contains(word), word + " in " + run.err()));
    assertEquals(before, all(), "nothing written");
  }

  private List<Path> all() throws IOException {
    try (Stream<Path> files = Files.walk(dir)) {
      return files.sorted().toList();
    }
  }

  @Test
  void aFileInPlaceOfTheOutputFolderIsAUsageFailure() throws IOException {
    List<String> words = List.of("--out", "a.aiff is a file, not a folder", "give a folder");
    fails(2, words, "restore", side, "--out", file);
    fails(2, words, "restore", side, "--out", file.resolve("sub").resolve("sub"));
    fails(2, words, "demo", "--out", file);
    fails(
        2,
        List.of("a.aiff is a file, not a folder", "give a file"),
        "revert",
        side,
        "--out",
        file.resolve("back.wav"));
  }

  @Test
  void aFolderInPlaceOfTheFileToWriteIsAUsageFailure() throws IOException {
    List<String> words = List.of("--out", "is a folder", "name of the file");
    fails(2, words, "revert", side, "--out", dir);
    fails(2, words, "revert", side, "--out", dir, "--replace");
    fails(2, words, "revert", side, "--out", dir.getRoot());
    fails(2, List.of("--out is empty"), "revert", side, "--out", "");
    fails(2, List.of("--out is empty"), "restore", side, "--out", "");
  }

  @Test
  void aFolderThatMayNotBeWrittenIsAFailureOfWriting() throws IOException {
    assumeTrue(
        FileSystems.getDefault().supportedFileAttributeViews().contains("posix"),
        "needs POSIX permissions");
    Path locked = Files.createDirectory(dir.resolve("locked"));
    Files.setPosixFilePermissions(locked, PosixFilePermissions.fromString("r-xr-xr-x"));
    assumeFalse(Files.isWritable(locked), "the superuser may write everywhere");
    List<String> words = List.of("locked: no permission to write");
    fails(1, words, "restore", side, "--out", locked);
    fails(1, words, "restore", side, "--out", locked.resolve("new"));
    fails(1, words, "revert", side, "--out", locked.resolve("back.wav"));
    fails(1, words, "demo", "--out", locked);
  }

  @Test
  void aMissingFolderIsNoTroubleAtAll() throws IOException {
    // the input is what is refused
    fails(4, List.of("side.wav"), "restore", side, "--out", dir.resolve("new").resolve("newer"));
  }

  @Test
  void aFolderInPlaceOfAnInputIsNamed() throws IOException {
    Path folder = Files.createDirectory(dir.resolve("folder"));
    fails(4, List.of("folder", "name one audio file"), "restore", folder);
    for (String command : List.of("verify", "edits")) {
      fails(4, List.of("folder", "NAME.ledger.jsonl"), command, folder);
    }
    fails(
        4, List.of("folder", "NAME.ledger.jsonl"), "revert", folder, "--out", dir.resolve("b.wav"));
    fails(2, List.of("folder", "treatment file"), "restore", side, "--treatment", folder);
    fails(2, List.of("name one audio file"), "restore", dir.getRoot());
    fails(2, List.of("name one audio file"), "restore", "");
    fails(2, List.of("name one audio file"), "inspect", dir.getRoot());
  }

  @Test
  void twoSidesThatWouldWriteTheSameFilesAreRefusedBeforeAnyWork() throws IOException {
    Path other = Files.createDirectory(dir.resolve("disc2")).resolve("side.wav");
    Files.writeString(other, "never opened");
    Path flac = Files.writeString(dir.resolve("side.flac"), "never opened");
    List<String> words = List.of("would both write side.ledger.jsonl", "--out");
    fails(2, words, "restore", side, other, "--out", dir.resolve("out"));
    fails(2, words, "restore", side, flac);
    fails(2, words, "restore", side, side);
    fails(2, words, "restore", side, dir.resolve("disc2").resolve("..").resolve("side.wav"));
    fails(2, words, "restore", side, other, "--out", dir.resolve("out"), "--replace");
  }

  @Test
  void twoSidesOfOneNameBesideThemselvesAreNoTrouble() {
    StringWriter err = new StringWriter();
    var line = Main.commandLine();
    line.setErr(new PrintWriter(err));
    Path other = dir.resolve("disc2").resolve("side.wav");
    // both are no audio: each is refused for itself
    assertEquals(3, line.execute("restore", side.toString(), other.toString()));
    assertFalse(err.toString().contains("both"), err.toString());
    assertEquals(2, err.toString().lines().count(), err.toString());
  }
}
