package org.groovemend.batch;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;

/**
 * The tables of a catalogue, as steps from each version to the next; a step that was released is
 * never changed. The version stands in the file ({@code PRAGMA user_version}). Described in
 * docs/reference/catalogue.md.
 */
final class CatalogueSchema {

  /** Marks the file as a catalogue ("GvMd" in ASCII). */
  static final int APPLICATION_ID = 0x47764d64;

  static final List<String> STEPS =
      List.of(
          """
          CREATE TABLE root (
            name TEXT PRIMARY KEY,
            folder TEXT NOT NULL
          );
          CREATE TABLE run (
            id INTEGER PRIMARY KEY,
            started_utc TEXT NOT NULL,
            ended_utc TEXT,
            version TEXT NOT NULL,
            java TEXT NOT NULL,
            system TEXT NOT NULL,
            threads INTEGER NOT NULL,
            memory_bytes INTEGER NOT NULL,
            found INTEGER NOT NULL,
            skipped INTEGER NOT NULL,
            planned INTEGER NOT NULL,
            done INTEGER,
            failed INTEGER,
            outcome TEXT
          );
          CREATE TABLE side (
            id INTEGER PRIMARY KEY,
            place TEXT NOT NULL UNIQUE,
            original TEXT NOT NULL,
            disc TEXT,
            side_name TEXT,
            series TEXT,
            facts TEXT,
            folder TEXT NOT NULL,
            name TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'running', 'done', 'failed')),
            attempts INTEGER NOT NULL DEFAULT 0,
            run INTEGER REFERENCES run (id),
            bytes INTEGER NOT NULL,
            modified_ns INTEGER NOT NULL,
            sha256 TEXT,
            treatment TEXT,
            version TEXT,
            started_utc TEXT,
            ended_utc TEXT,
            expected_seconds REAL,
            seconds REAL,
            error_kind TEXT,
            error TEXT,
            ledger TEXT,
            ledger_seal TEXT,
            ledger_bytes INTEGER,
            restored_bytes INTEGER,
            container TEXT,
            rate_hz INTEGER,
            channels INTEGER,
            bits INTEGER,
            frames INTEGER,
            captured TEXT,
            stages TEXT,
            edits INTEGER,
            edits_by_stage TEXT,
            edits_per_minute REAL,
            changed_samples INTEGER,
            clipped_samples INTEGER,
            clipped_runs INTEGER,
            removed_dbfs REAL,
            peak_dbfs REAL,
            rms_dbfs REAL,
            channel_difference_db REAL,
            lead_in_confidence REAL,
            noise_place TEXT,
            noise_before_dbfs REAL,
            noise_after_dbfs REAL,
            turntable_rpm REAL,
            rotation_chance REAL,
            scratches INTEGER,
            remarks TEXT
          );
          CREATE INDEX side_state ON side (state);
          CREATE INDEX side_disc ON side (disc);
          """,
          """
          ALTER TABLE side ADD COLUMN edits_left_share REAL;
          ALTER TABLE side ADD COLUMN onsets INTEGER;
          ALTER TABLE side ADD COLUMN repairs_on_onsets REAL;
          ALTER TABLE side ADD COLUMN repairs_on_onsets_z REAL;
          CREATE INDEX side_results ON side (folder, ledger);
          """);

  private CatalogueSchema() {}

  /** The version that this program writes. */
  static int version() {
    return STEPS.size();
  }

  /** Version of a catalogue; 0 if the file holds nothing yet. */
  static int versionOf(Connection connection) throws SQLException {
    return pragma(connection, "user_version");
  }

  /** True if the file is empty or a catalogue, and no other data base. */
  static boolean isOurs(Connection connection) throws SQLException {
    int id = pragma(connection, "application_id");
    if (id == APPLICATION_ID) {
      return true;
    }
    try (Statement statement = connection.createStatement();
        ResultSet tables = statement.executeQuery("SELECT count(*) FROM sqlite_master")) {
      return id == 0 && tables.getInt(1) == 0;
    }
  }

  private static int pragma(Connection connection, String name) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet value = statement.executeQuery("PRAGMA " + name)) {
      return value.getInt(1);
    }
  }

  /**
   * Takes a catalogue on to the latest version; each step whole or not at all.
   *
   * @param steps from version 0 on
   */
  static void migrate(Connection connection, List<String> steps) throws SQLException {
    for (int version = versionOf(connection); version < steps.size(); version++) {
      try (Statement statement = connection.createStatement()) {
        connection.setAutoCommit(false);
        statement.executeUpdate(steps.get(version));
        statement.executeUpdate("PRAGMA application_id = " + APPLICATION_ID);
        statement.executeUpdate("PRAGMA user_version = " + (version + 1));
        connection.commit();
        connection.setAutoCommit(true);
      } catch (SQLException e) {
        takeBack(connection, e);
        throw e;
      }
    }
  }

  /** Ends a transaction that failed. SQLite has ended it already if, say, the disk is full. */
  static void takeBack(Connection connection, Exception reason) {
    try {
      connection.rollback();
    } catch (SQLException e) {
      reason.addSuppressed(e);
    }
    try {
      connection.setAutoCommit(true);
    } catch (SQLException e) {
      reason.addSuppressed(e);
    }
  }
}
