package org.groovemend.batch;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Locale;
import org.sqlite.SQLiteConfig;

/**
 * A data base file that holds a catalogue: how it is opened, transactions, words for its troubles.
 */
final class CatalogueFile implements Closeable {

  private static final int BUSY_MILLISECONDS = 20_000;

  /** Something to be done whole or not at all. */
  interface Work<T> {
    T run() throws SQLException, IOException;
  }

  private final Path file;
  private final Connection connection;

  private CatalogueFile(Path file, Connection connection) {
    this.file = file;
    this.connection = connection;
  }

  /** For writing; made, or taken to the version of this program. */
  static CatalogueFile open(Path file) throws IOException {
    CatalogueFile opened = connect(file, false);
    try {
      opened.requireOurs();
      opened.writeAhead();
      CatalogueSchema.migrate(opened.connection, CatalogueSchema.STEPS);
      return opened;
    } catch (SQLException e) {
      opened.close();
      throw opened.trouble(e);
    } catch (IOException e) {
      opened.close();
      throw e;
    }
  }

  /** One that is there, for reading only, even while a run writes it. */
  static CatalogueFile read(Path file) throws IOException {
    if (!Files.isRegularFile(file)) {
      throw new CatalogueException(
          file + ": there is no catalogue; give the output folder of 'groovemend batch'.");
    }
    CatalogueFile opened = connect(file, true);
    try {
      opened.requireOurs();
      int version = CatalogueSchema.versionOf(opened.connection);
      if (version < CatalogueSchema.version()) {
        throw new CatalogueException(
            file
                + " is of version "
                + version
                + ", this program reads version "
                + CatalogueSchema.version()
                + "; the next 'groovemend batch' into its folder takes it on.");
      }
      return opened;
    } catch (SQLException e) {
      opened.close();
      throw opened.trouble(e);
    } catch (IOException e) {
      opened.close();
      throw e;
    }
  }

  private static CatalogueFile connect(Path file, boolean readOnly) throws IOException {
    SqliteFolder.prepare();
    SQLiteConfig config = new SQLiteConfig();
    config.setBusyTimeout(BUSY_MILLISECONDS);
    config.enforceForeignKeys(true);
    if (readOnly) {
      config.setReadOnly(true);
    } else {
      config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    }
    // as a URI, since a path may hold what the driver takes for settings
    String uri = "jdbc:sqlite:file:" + file.toAbsolutePath().toUri().getRawPath();
    if (readOnly && !Files.isWritable(file.toAbsolutePath().getParent())) {
      // nobody writes there, and SQLite could not make the files that readers and writers share
      uri += "?immutable=1";
    }
    try {
      return new CatalogueFile(file, config.createConnection(uri));
    } catch (SQLException e) {
      throw trouble(file, e);
    }
  }

  /** Readers and the writer do not wait for one another; only once the file is known to be ours. */
  private void writeAhead() throws SQLException {
    try (Statement statement = connection.createStatement()) {
      // on a share readers and the writer wait for one another
      boolean share = NetworkShare.holds(file.toAbsolutePath().getParent());
      statement.execute("PRAGMA journal_mode = " + (share ? "DELETE" : "WAL"));
    }
  }

  private void requireOurs() throws SQLException, CatalogueException {
    if (!CatalogueSchema.isOurs(connection)) {
      throw new CatalogueException(
          file + " is a data base of another kind; it was left alone. Choose another folder.");
    }
    int version = CatalogueSchema.versionOf(connection);
    if (version > CatalogueSchema.version()) {
      throw new CatalogueException(
          file
              + " was written by a later groovemend (version "
              + version
              + " of the catalogue, this one knows "
              + CatalogueSchema.version()
              + "); use that one.");
    }
  }

  Connection connection() {
    return connection;
  }

  /** Does all of something or nothing, and has it on the disk. */
  <T> T whole(Work<T> work) throws IOException {
    try {
      connection.setAutoCommit(false);
      T result = work.run();
      connection.commit();
      connection.setAutoCommit(true);
      return result;
    } catch (SQLException e) {
      CatalogueSchema.takeBack(connection, e);
      throw trouble(e);
    } catch (IOException | RuntimeException e) {
      CatalogueSchema.takeBack(connection, e);
      throw e;
    }
  }

  int update(String sql, Object... values) throws SQLException {
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      bind(statement, values);
      return statement.executeUpdate();
    }
  }

  static void bind(PreparedStatement statement, Object... values) throws SQLException {
    for (int i = 0; i < values.length; i++) {
      Object value = values[i];
      boolean noNumber = value instanceof Double d && !Double.isFinite(d);
      statement.setObject(i + 1, noNumber ? null : value);
    }
  }

  long lastId() throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet id = statement.executeQuery("SELECT last_insert_rowid()")) {
      return id.getLong(1);
    }
  }

  CatalogueException trouble(SQLException e) {
    return trouble(file, e);
  }

  private static CatalogueException trouble(Path file, SQLException e) {
    String said = String.valueOf(e.getMessage());
    String lower = said.toLowerCase(Locale.ROOT);
    if (lower.contains("sqlite_full") || lower.contains("disk is full")) {
      return new CatalogueException(
          file + ": the disk is full; make room and run the same command again.", e);
    }
    if (lower.contains("sqlite_notadb") || lower.contains("sqlite_corrupt")) {
      return new CatalogueException(
          file
              + " is damaged or no catalogue; move it away and run the same command again: results"
              + " that are there are told by their ledgers.",
          e);
    }
    if (lower.contains("sqlite_readonly") || lower.contains("sqlite_cantopen")) {
      return new CatalogueException(
          file + ": the catalogue cannot be opened for writing; check permissions of its folder.",
          e);
    }
    return new CatalogueException(file + ": " + said, e);
  }

  @Override
  public void close() throws IOException {
    try {
      connection.close();
    } catch (SQLException e) {
      throw trouble(e);
    }
  }
}
