package org.groovemend.batch;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.sqlite.SQLiteConfig;

/**
 * The catalogue of a collection: a SQLite file in the output folder. What a method has written is
 * on the disk when it returns. Safe for use by several threads.
 */
public final class Catalogue implements Closeable {

  /** Name of the file in the output folder. */
  public static final String NAME = "catalogue.sqlite";

  private static final int BUSY_MILLISECONDS = 20_000;

  private final Path file;
  private final Connection connection;
  private final ObjectMapper mapper = new ObjectMapper();

  private Catalogue(Path file, Connection connection) {
    this.file = file;
    this.connection = connection;
  }

  /** Opens a catalogue for writing; makes it, or takes it to the version of this program. */
  public static Catalogue open(Path file) throws IOException {
    Catalogue catalogue = connect(file, false);
    try {
      catalogue.requireOurs();
      catalogue.writeAhead();
      CatalogueSchema.migrate(catalogue.connection, CatalogueSchema.STEPS);
      return catalogue;
    } catch (SQLException e) {
      catalogue.close();
      throw catalogue.trouble(e);
    } catch (IOException e) {
      catalogue.close();
      throw e;
    }
  }

  /** Opens one that is there, for reading only, even while a run writes it. */
  public static Catalogue read(Path file) throws IOException {
    if (!Files.isRegularFile(file)) {
      throw new CatalogueException(
          file + ": there is no catalogue; give the output folder of 'groovemend batch'.");
    }
    Catalogue catalogue = connect(file, true);
    try {
      catalogue.requireOurs();
      int version = CatalogueSchema.versionOf(catalogue.connection);
      if (version < CatalogueSchema.version()) {
        throw new CatalogueException(
            file
                + " is of version "
                + version
                + ", this program reads version "
                + CatalogueSchema.version()
                + "; the next 'groovemend batch' into its folder takes it on.");
      }
      return catalogue;
    } catch (SQLException e) {
      catalogue.close();
      throw catalogue.trouble(e);
    } catch (IOException e) {
      catalogue.close();
      throw e;
    }
  }

  private static Catalogue connect(Path file, boolean readOnly) throws IOException {
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
      return new Catalogue(file, config.createConnection(uri));
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

  /** Names that were given to folders of the collection. */
  public synchronized Map<String, String> roots() throws IOException {
    Map<String, String> roots = new LinkedHashMap<>();
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery("SELECT name, folder FROM root")) {
      while (rows.next()) {
        roots.put(rows.getString(1), rows.getString(2));
      }
      return roots;
    } catch (SQLException e) {
      throw trouble(e);
    }
  }

  /** Every side, by place. */
  public synchronized Map<String, SideRow> rows() throws IOException {
    Map<String, SideRow> all = new HashMap<>();
    try (Statement statement = connection.createStatement();
        ResultSet r =
            statement.executeQuery(
                "SELECT id, place, folder, name, state, attempts, bytes, modified_ns, sha256,"
                    + " treatment, version, ledger, ledger_bytes, restored_bytes, expected_seconds,"
                    + " seconds FROM side")) {
      while (r.next()) {
        SideRow row =
            new SideRow(
                r.getLong(1),
                r.getString(2),
                new OutputNames.Output(r.getString(3), r.getString(4)),
                SideState.ofKey(r.getString(5)),
                r.getInt(6),
                r.getLong(7),
                r.getLong(8),
                r.getString(9),
                r.getString(10),
                r.getString(11),
                r.getString(12),
                r.getLong(13),
                r.getLong(14),
                r.getDouble(15),
                r.getDouble(16));
        all.put(row.place(), row);
      }
      return all;
    } catch (SQLException e) {
      throw trouble(e);
    }
  }

  /** Begins a run: enters it, the names of folders, and every side that is to be done. */
  public synchronized long begin(
      RunFacts facts, Instant now, Map<String, String> roots, Collection<PlannedSide> sides)
      throws IOException {
    return whole(
        () -> {
          for (Map.Entry<String, String> root : roots.entrySet()) {
            update(
                "INSERT INTO root (name, folder) VALUES (?, ?) ON CONFLICT (name) DO NOTHING",
                root.getKey(),
                root.getValue());
          }
          update(
              "INSERT INTO run (started_utc, version, java, system, threads, memory_bytes, found,"
                  + " skipped, planned) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
              utc(now),
              facts.version(),
              System.getProperty("java.version"),
              System.getProperty("os.name") + " " + System.getProperty("os.arch"),
              facts.threads(),
              facts.memoryBytes(),
              facts.found(),
              facts.skipped(),
              facts.planned());
          long run = lastId();
          try (PreparedStatement enter =
              connection.prepareStatement(
                  "INSERT INTO side (place, original, disc, side_name, series, facts, folder, name,"
                      + " state, bytes, modified_ns) VALUES (?, ?, ?, ?, ?, ?, ?, ?, 'waiting', ?, ?)"
                      + " ON CONFLICT (place) DO UPDATE SET original = excluded.original, disc ="
                      + " excluded.disc, side_name = excluded.side_name, series = excluded.series,"
                      + " facts = excluded.facts, state = 'waiting', error_kind = NULL, error ="
                      + " NULL")) {
            for (PlannedSide side : sides) {
              SideOrder order = side.order();
              bind(
                  enter,
                  order.found().place(),
                  order.found().file().toAbsolutePath().toString(),
                  order.disc(),
                  order.sideName(),
                  order.series(),
                  order.facts().isEmpty() ? null : json(order.facts()),
                  side.output().folder(),
                  side.output().name(),
                  order.found().bytes(),
                  order.found().modifiedNanos());
              enter.addBatch();
            }
            enter.executeBatch();
          }
          return run;
        });
  }

  /** A side is begun: from now on what lies under its names is ours. */
  public synchronized void started(long run, PlannedSide side, Instant now) throws IOException {
    whole(
        () ->
            update(
                "UPDATE side SET state = 'running', attempts = attempts + 1, run = ?, started_utc ="
                    + " ?, ended_utc = NULL, expected_seconds = ?, error_kind = NULL, error = NULL"
                    + " WHERE place = ?",
                run,
                utc(now),
                side.expectedSeconds(),
                side.order().found().place()));
  }

  /** A side is done; its results are in place. */
  public synchronized void done(PlannedSide side, String version, SideResult result, Instant now)
      throws IOException {
    StringBuilder sql =
        new StringBuilder(
            "UPDATE side SET state = 'done', attempts = max(attempts, 1), ended_utc = ?, bytes = ?, modified_ns = ?, sha256 = ?,"
                + " treatment = ?, version = ?, seconds = ?, ledger = ?, ledger_seal = ?,"
                + " ledger_bytes = ?, restored_bytes = ?");
    List<Object> values = new ArrayList<>();
    values.addAll(
        Arrays.asList(
            utc(now),
            side.order().found().bytes(),
            side.order().found().modifiedNanos(),
            result.sha256(),
            side.key(),
            version,
            result.seconds(),
            result.ledgerName(),
            result.ledgerSeal(),
            result.ledgerBytes(),
            result.restoredBytes()));
    for (Map.Entry<String, Object> measure : result.measures().entrySet()) {
      sql.append(", ").append(measure.getKey()).append(" = ?");
      Object value = measure.getValue();
      values.add(value instanceof Collection || value instanceof Map ? json(value) : value);
    }
    sql.append(" WHERE place = ?");
    values.add(side.order().found().place());
    whole(() -> update(sql.toString(), values.toArray()));
  }

  /** A side was given up. */
  public synchronized void failed(
      PlannedSide side, SideFailure failure, double seconds, Instant now) throws IOException {
    whole(
        () ->
            update(
                "UPDATE side SET state = 'failed', ended_utc = ?, seconds = ?, error_kind = ?, error"
                    + " = ? WHERE place = ?",
                utc(now),
                seconds,
                failure.kind(),
                failure.sentence(),
                side.order().found().place()));
  }

  /** A side was stopped before its end by a person: it waits again. */
  public synchronized void stopped(PlannedSide side) throws IOException {
    whole(
        () ->
            update(
                "UPDATE side SET state = 'waiting' WHERE place = ?", side.order().found().place()));
  }

  /** Ends a run. */
  public synchronized void end(long run, int done, int failed, String outcome, Instant now)
      throws IOException {
    whole(
        () ->
            update(
                "UPDATE run SET ended_utc = ?, done = ?, failed = ?, outcome = ? WHERE id = ?",
                utc(now),
                done,
                failed,
                outcome,
                run));
  }

  /** Rows of sides, one by one. */
  @FunctionalInterface
  public interface RowTaker {
    void take(Map<String, Object> row) throws IOException;
  }

  /** Hands out what a query asks for, a row at a time, every column by its name. */
  public synchronized void forEach(CatalogueQuery query, RowTaker taker) throws IOException {
    try (PreparedStatement statement = connection.prepareStatement(query.sql())) {
      bind(statement, query.values().toArray());
      try (ResultSet rows = statement.executeQuery()) {
        var columns = rows.getMetaData();
        while (rows.next()) {
          Map<String, Object> row = new LinkedHashMap<>();
          for (int i = 1; i <= columns.getColumnCount(); i++) {
            row.put(columns.getColumnName(i), rows.getObject(i));
          }
          taker.take(row);
        }
      }
    } catch (SQLException e) {
      throw trouble(e);
    }
  }

  private interface Work<T> {
    T run() throws SQLException, IOException;
  }

  /** Does all of something or nothing, and has it on the disk. */
  private <T> T whole(Work<T> work) throws IOException {
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

  private int update(String sql, Object... values) throws SQLException {
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      bind(statement, values);
      return statement.executeUpdate();
    }
  }

  private static void bind(PreparedStatement statement, Object... values) throws SQLException {
    for (int i = 0; i < values.length; i++) {
      Object value = values[i];
      boolean noNumber = value instanceof Double d && !Double.isFinite(d);
      statement.setObject(i + 1, noNumber ? null : value);
    }
  }

  private long lastId() throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet id = statement.executeQuery("SELECT last_insert_rowid()")) {
      return id.getLong(1);
    }
  }

  private String json(Object value) {
    try {
      return mapper.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a fact that is no JSON", e);
    }
  }

  private static String utc(Instant now) {
    return now.truncatedTo(ChronoUnit.MILLIS).toString();
  }

  private CatalogueException trouble(SQLException e) {
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
              + " is damaged or no catalogue; move it away and run the same command again: results that"
              + " are there are told by their ledgers.",
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
