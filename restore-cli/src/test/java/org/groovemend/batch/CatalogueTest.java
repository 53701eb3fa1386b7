package org.groovemend.batch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.groovemend.job.restore.Treatment;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CatalogueTest {

  static final Instant NOW = Instant.parse("2026-03-01T12:00:00Z");
  static final RunFacts FACTS = new RunFacts("test", 2, 1 << 20, 1, 0, 1);

  @TempDir private Path dir;
  private Path file;

  @BeforeEach
  void place() throws IOException {
    // what the driver could take for settings
    file = Files.createDirectory(dir.resolve("a?b=c&d #ü%20")).resolve(Catalogue.NAME);
  }

  static PlannedSide side(String place) {
    FoundSide found = new FoundSide(Path.of("/nowhere").resolve(place), place, 1000, 77);
    return new PlannedSide(
        SideOrder.plain(found, Treatment.defaults()),
        new OutputNames().give(place),
        "k",
        PlannedSide.Why.NEW,
        false,
        null,
        1.5,
        2000);
  }

  static SideResult result() {
    return new SideResult(
        "0".repeat(64),
        "a.ledger.jsonl",
        "1".repeat(64),
        10,
        20,
        3.5,
        Map.of("edits", 7L, "edits_per_minute", 70.5, "remarks", List.of("One.", "Two.")));
  }

  private static List<Map<String, Object>> rows(Catalogue catalogue, String... conditions)
      throws IOException {
    List<Map<String, Object>> rows = new ArrayList<>();
    catalogue.forEach(CatalogueQuery.of(List.of(conditions), null, 0), rows::add);
    return rows;
  }

  @Test
  void whatWasWrittenIsThereWhenItIsOpenedAgain() throws IOException {
    try (Catalogue catalogue = Catalogue.open(file)) {
      long run =
          catalogue.begin(
              FACTS, NOW, Map.of("s", "/nowhere/s"), List.of(side("s/a.wav"), side("s/b.wav")));
      catalogue.started(run, side("s/a.wav"), NOW);
      catalogue.done(side("s/a.wav"), "test", result(), NOW.plusSeconds(4));
      catalogue.started(run, side("s/b.wav"), NOW);
      catalogue.failed(side("s/b.wav"), new SideFailure("io", "It's gone."), 2, NOW);
      catalogue.end(run, 1, 1, "over", NOW.plusSeconds(9));
    }
    try (Catalogue catalogue = Catalogue.read(file)) {
      assertThat(catalogue.roots()).isEqualTo(Map.of("s", "/nowhere/s"));
      SideRow row = catalogue.rows().get("s/a.wav");
      assertThat(row.state()).isEqualTo(SideState.DONE);
      assertThat(row.attempts()).isEqualTo(1);
      assertThat(row.treatment()).isEqualTo("k");
      assertThat(row.modifiedNanos()).isEqualTo(77);
      assertThat(row.seconds()).isEqualTo(3.5);
      Map<String, Object> done = rows(catalogue, "state=done").get(0);
      assertThat(done).containsEntry("edits", 7).containsEntry("remarks", "[\"One.\",\"Two.\"]");
      assertThat(done.keySet()).containsExactlyElementsOf(CatalogueQuery.columns());
      assertThat(rows(catalogue, "state=failed").get(0)).containsEntry("error", "It's gone.");
    }
  }

  @Test
  void conditionsChooseSides() throws IOException {
    try (Catalogue catalogue = Catalogue.open(file)) {
      long run =
          catalogue.begin(
              FACTS, NOW, Map.of(), List.of(side("s/a.wav"), side("s/b.wav"), side("t/c.wav")));
      catalogue.started(run, side("s/a.wav"), NOW);
      catalogue.done(side("s/a.wav"), "test", result(), NOW);
      assertThat(rows(catalogue, "edits>6.5", "edits<=7")).hasSize(1);
      assertThat(rows(catalogue, "edits>7")).isEmpty();
      assertThat(rows(catalogue, "place~s/*")).hasSize(2);
      assertThat(rows(catalogue, "edits=")).hasSize(2);
      assertThat(rows(catalogue, "edits!=")).hasSize(1);
      assertThat(rows(catalogue, "place=x' OR '1'='1")).isEmpty();
    }
    assertThatThrownBy(() -> CatalogueQuery.of(List.of("nothing=1"), null, 0))
        .hasMessageContaining("no column \"nothing\"");
    assertThatThrownBy(() -> CatalogueQuery.of(List.of("1=1; DROP TABLE side"), null, 0))
        .hasMessageContaining("no column \"1\"");
    assertThatThrownBy(() -> CatalogueQuery.of(List.of("state"), null, 0))
        .hasMessageContaining("is no condition");
  }

  @Test
  void aLaterVersionIsRefusedAndAnotherDataBaseLeftAlone() throws Exception {
    Catalogue.open(file).close();
    try (Connection raw = raw(file);
        Statement statement = raw.createStatement()) {
      statement.executeUpdate("PRAGMA user_version = 99");
    }
    assertThatThrownBy(() -> Catalogue.open(file))
        .isInstanceOf(CatalogueException.class)
        .hasMessageContaining("later groovemend");
    Path other = dir.resolve("other.sqlite");
    try (Connection raw = raw(other);
        Statement statement = raw.createStatement()) {
      statement.executeUpdate("CREATE TABLE recipes (cake TEXT)");
    }
    byte[] before = Files.readAllBytes(other);
    assertThatThrownBy(() -> Catalogue.open(other)).hasMessageContaining("of another kind");
    assertThat(Arrays.equals(Files.readAllBytes(other), before)).isTrue();
    Path text = Files.writeString(dir.resolve("text.sqlite"), "no data base ".repeat(200));
    assertThatThrownBy(() -> Catalogue.open(text)).hasMessageContaining("damaged or no catalogue");
  }

  private static Connection raw(Path file) throws SQLException {
    return DriverManager.getConnection("jdbc:sqlite:file:" + file.toUri().getRawPath());
  }

  @Test
  void aStepToALaterVersionKeepsWhatIsThereOrDoesNothing() throws Exception {
    try (Catalogue catalogue = Catalogue.open(file)) {
      catalogue.begin(FACTS, NOW, Map.of(), List.of(side("s/a.wav")));
    }
    List<String> later = new ArrayList<>(CatalogueSchema.STEPS);
    later.add("ALTER TABLE side ADD COLUMN colour TEXT; UPDATE side SET colour = 'red'");
    List<String> broken = new ArrayList<>(later);
    broken.add("UPDATE side SET colour = 'blue'; UPDATE nowhere SET x = 1");
    try (Connection raw = raw(file)) {
      CatalogueSchema.migrate(raw, later);
      assertThat(CatalogueSchema.versionOf(raw)).isEqualTo(later.size());
      assertThatThrownBy(() -> CatalogueSchema.migrate(raw, broken))
          .isInstanceOf(SQLException.class);
      assertThat(CatalogueSchema.versionOf(raw)).isEqualTo(later.size());
      try (Statement statement = raw.createStatement();
          ResultSet row = statement.executeQuery("SELECT place, colour FROM side")) {
        assertThat(row.getString(1)).isEqualTo("s/a.wav");
        assertThat(row.getString(2)).isEqualTo("red");
      }
    }
  }

  @Test
  void aCatalogueOfTheFirstVersionIsTakenOn() throws Exception {
    try (Connection raw = raw(file)) {
      CatalogueSchema.migrate(raw, CatalogueSchema.STEPS.subList(0, 1));
      try (Statement statement = raw.createStatement()) {
        statement.executeUpdate(
            "INSERT INTO side (place, original, folder, name, state, bytes, modified_ns) VALUES"
                + " ('s/a.wav', '/nowhere/a.wav', 'sides/s', 'a', 'waiting', 1, 2)");
      }
    }
    assertThatThrownBy(() -> Catalogue.read(file)).hasMessageContaining("is of version 1");
    try (Catalogue catalogue = Catalogue.open(file)) {
      Map<String, Object> row = rows(catalogue).get(0);
      assertThat(row).containsEntry("place", "s/a.wav").containsEntry("repairs_on_onsets", null);
      assertThat(row.keySet()).containsExactlyElementsOf(CatalogueQuery.columns());
    }
  }

  @Test
  void theColumnsAreThoseOfTheReferencePage() throws IOException {
    String page =
        Files.readString(
            Path.of(System.getProperty("basedir", "."), "..", "docs/reference/catalogue.md"));
    for (String column : CatalogueQuery.columns()) {
      assertThat(page).contains("| `" + column + "` |");
    }
  }

  @Test
  void aSideBegunAndNotEndedIsToldAndSidesKeepTheirNames() throws IOException {
    try (Catalogue catalogue = Catalogue.open(file)) {
      long run = catalogue.begin(FACTS, NOW, Map.of(), List.of(side("s/a.wav")));
      catalogue.started(run, side("s/a.wav"), NOW);
    }
    try (Catalogue catalogue = Catalogue.open(file)) {
      SideRow row = catalogue.rows().get("s/a.wav");
      assertThat(row.state()).isEqualTo(SideState.RUNNING);
      PlannedSide renamed =
          new PlannedSide(
              side("s/a.wav").order(),
              new OutputNames.Output("sides/s", "elsewhere"),
              "k",
              PlannedSide.Why.UNFINISHED,
              true,
              null,
              1,
              1);
      catalogue.begin(FACTS, NOW, Map.of(), List.of(renamed));
      SideRow again = catalogue.rows().get("s/a.wav");
      assertThat(again.output()).isEqualTo(row.output());
      assertThat(again.state()).isEqualTo(SideState.WAITING);
      assertThat(again.attempts()).isEqualTo(1);
    }
  }

  @Test
  void anOldNativeLibraryOfAKilledProcessIsSwept() throws IOException {
    Path old = Files.writeString(dir.resolve("sqlite-old.so"), "x");
    Path other = Files.writeString(dir.resolve("else"), "x");
    SqliteFolder.sweep(dir, NOW.minusSeconds(1_000_000_000));
    assertThat(old).exists();
    SqliteFolder.sweep(dir, Instant.now().plusSeconds(10));
    assertThat(old).doesNotExist();
    assertThat(other).exists();
  }
}
