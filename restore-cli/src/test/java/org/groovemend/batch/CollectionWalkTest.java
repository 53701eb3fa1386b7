package org.groovemend.batch;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CollectionWalkTest {

  @TempDir private Path dir;
  private Path shelf;

  @BeforeEach
  void shelf() throws IOException {
    shelf = Files.createDirectory(dir.resolve("shelf"));
  }

  private void file(String name) throws IOException {
    Path file = shelf.resolve(name);
    Files.createDirectories(file.getParent());
    Files.writeString(file, name);
  }

  private Collected walk() {
    CollectionWalk walk = new CollectionWalk(new RootNames(Map.of()), dir.resolve("out"));
    walk.folder(shelf);
    return walk.finish();
  }

  private static List<String> places(Collected found) {
    return found.sides().stream().map(FoundSide::place).toList();
  }

  @Test
  void allFoldersAreLookedThroughAndOtherFilesPassedOver() throws IOException {
    for (String name :
        List.of("b.WAV", "a/c.flac", "a/d/e.Aiff", "a/cover.jpg", "list.csv", ".hidden.wav")) {
      file(name);
    }
    Collected found = walk();
    assertThat(places(found)).containsExactly("shelf/a/c.flac", "shelf/a/d/e.Aiff", "shelf/b.WAV");
    assertThat(found.passedOver()).isEqualTo(3);
    assertThat(found.sides().get(0).bytes()).isEqualTo("a/c.flac".length());
    assertThat(found.troubles()).isEmpty();
  }

  @Test
  void linksInCirclesEndAndNoFileIsTakenTwice() throws IOException {
    file("a/one.wav");
    file("b/two.wav");
    Files.createSymbolicLink(shelf.resolve("a/up"), Path.of(".."));
    Files.createSymbolicLink(shelf.resolve("a/self"), Path.of("."));
    Files.createSymbolicLink(shelf.resolve("a/b"), Path.of("../b"));
    Files.createSymbolicLink(shelf.resolve("b/a"), Path.of("../a"));
    Files.createSymbolicLink(shelf.resolve("again.wav"), Path.of("a/one.wav"));
    assertThat(places(walk())).containsExactly("shelf/a/one.wav", "shelf/b/two.wav");
  }

  @Test
  void whatOnlyALinkLeadsToIsTakenUnderTheNameOfTheLink() throws IOException {
    Path elsewhere = Files.createDirectories(dir.resolve("elsewhere/deep"));
    Files.writeString(elsewhere.resolve("x.wav"), "x");
    Files.createSymbolicLink(shelf.resolve("linked"), dir.resolve("elsewhere"));
    assertThat(places(walk())).containsExactly("shelf/linked/deep/x.wav");
  }

  @Test
  void aLinkToNothingIsASideThatWillFail() throws IOException {
    Files.createSymbolicLink(shelf.resolve("gone.wav"), Path.of("nowhere.wav"));
    FoundSide side = walk().sides().get(0);
    assertThat(side.bytes()).isEqualTo(-1);
  }

  @Test
  void resultsOfAnEarlierRestorationAreNoTransfers() throws IOException {
    for (String name :
        List.of("a.wav", "a.restored.wav", "a.removed.flac", "a.ledger.jsonl", "b.restored.wav")) {
      file(name);
    }
    assertThat(places(walk())).containsExactly("shelf/a.wav", "shelf/b.restored.wav");
  }

  @Test
  void theOutputFolderWithinTheCollectionIsNotEntered() throws IOException {
    file("a.wav");
    file("out/sides/shelf/b.wav");
    CollectionWalk walk = new CollectionWalk(new RootNames(Map.of()), shelf.resolve("out"));
    walk.folder(shelf);
    assertThat(places(walk.finish())).containsExactly("shelf/a.wav");
  }

  @Test
  void patternsNameFilesAndFolders() throws IOException {
    for (String name : List.of("78/a.wav", "78/x/b.flac", "lp/c.wav", "lp/d.flac")) {
      file(name);
    }
    CollectionWalk walk = new CollectionWalk(new RootNames(Map.of()), dir.resolve("out"));
    walk.matching(shelf, "**/*.flac");
    assertThat(places(walk.finish())).containsExactly("shelf/78/x/b.flac", "shelf/lp/d.flac");
    walk = new CollectionWalk(new RootNames(Map.of()), dir.resolve("out"));
    walk.matching(shelf, "7*");
    assertThat(places(walk.finish())).containsExactly("shelf/78/a.wav", "shelf/78/x/b.flac");
  }

  @Test
  void aFolderThatIsGoneIsTold() throws IOException {
    CollectionWalk walk = new CollectionWalk(new RootNames(Map.of()), dir.resolve("out"));
    file("a.wav");
    walk.folder(dir.resolve("vanished"));
    walk.folder(shelf);
    Collected found = walk.finish();
    assertThat(places(found)).containsExactly("shelf/a.wav");
    assertThat(found.troubles()).hasSize(1);
    assertThat(found.troubles().get(0)).contains("vanished").contains("cannot be read");
  }

  @Test
  void twoFoldersOfOneNameGetTwoNamesAndKeepThem() {
    RootNames names = new RootNames(Map.of());
    assertThat(names.of(Path.of("/one/music"))).isEqualTo("music");
    assertThat(names.of(Path.of("/two/music"))).isEqualTo("music-2");
    RootNames later = new RootNames(names.folders());
    assertThat(later.of(Path.of("/two/music"))).isEqualTo("music-2");
    assertThat(later.of(Path.of("/three/music"))).isEqualTo("music-3");
  }
}
