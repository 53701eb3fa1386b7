package org.groovemend.ledger;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.LayoutSink;

/**
 * A ledger file that has been read through once and found undamaged. Keeps all but its edits and
 * container pieces, which are read from the file whenever they are asked for.
 */
public final class Ledger {

  /** Takes edits in the order of the ledger. */
  @FunctionalInterface
  public interface EditConsumer {
    void accept(LedgerEdit edit) throws IOException;
  }

  /** Is shown a ledger while it is read and checked. */
  public interface Onlooker {

    /** Before all edits. */
    default void header(LedgerHeader header) throws IOException {}

    /** Edits in the order of the ledger. None of them counts until the whole ledger is read. */
    default void edit(LedgerEdit edit) throws IOException {}

    /** How far it is; called often. */
    default void at(long bytes, long ofBytes) {}
  }

  /** Between two reports of how far it is. */
  private static final long REPORT_RECORDS = 256;

  private final Path path;
  private LedgerHeader header;
  private final List<AnalysisRecord> analyses = new ArrayList<>();
  private LedgerTotals totals;
  private LedgerClosing closing;

  private Ledger(Path path) {
    this.path = path;
  }

  /**
   * Reads the whole file and checks chain and seal.
   *
   * @throws LedgerDamagedException if it is not as it was written
   * @throws LedgerVersionException if it is of a later format
   */
  public static Ledger open(Path path) throws IOException {
    return open(path, new Onlooker() {});
  }

  /** The same, and shows what is read to somebody who would have to read it again otherwise. */
  public static Ledger open(Path path, Onlooker onlooker) throws IOException {
    Ledger ledger = new Ledger(path);
    long size = Files.size(path);
    try (LedgerReader reader = ledger.reader()) {
      for (LedgerRecord record = reader.next(); record != null; record = reader.next()) {
        ledger.keep(record);
        if (record instanceof LedgerHeader header) {
          onlooker.header(header);
        } else if (record instanceof LedgerEdit edit) {
          onlooker.edit(edit);
        }
        if (reader.line() % REPORT_RECORDS == 0) {
          onlooker.at(reader.bytes(), size);
        }
      }
    }
    return ledger;
  }

  private void keep(LedgerRecord record) {
    if (record instanceof LedgerHeader h) {
      header = h;
    } else if (record instanceof AnalysisRecord a) {
      analyses.add(a);
    } else if (record instanceof LedgerTotals t) {
      totals = t;
    } else if (record instanceof LedgerClosing c) {
      closing = c;
    }
  }

  /** A reader from the first line on, to be closed by the caller. */
  public LedgerReader reader() throws IOException {
    return new LedgerReader(Files.newInputStream(path));
  }

  public Path path() {
    return path;
  }

  public LedgerHeader header() {
    return header;
  }

  public List<AnalysisRecord> analyses() {
    return List.copyOf(analyses);
  }

  public LedgerTotals totals() {
    return totals;
  }

  /** Lines of the ledger. */
  public long records() {
    return closing.records();
  }

  /** What stands for the whole ledger in a catalogue. */
  public String seal() {
    return closing.seal();
  }

  /** Hands out every edit, reading the file again. */
  public void forEachEdit(EditConsumer consumer) throws IOException {
    try (EditReader edits = edits()) {
      for (LedgerEdit edit = edits.next(); edit != null; edit = edits.next()) {
        consumer.accept(edit);
      }
    }
  }

  /** The edits from the first on, reading the file again; to be closed by the caller. */
  public EditReader edits() throws IOException {
    return new EditReader(reader());
  }

  /** Hands out the layout of the original file, reading the file again. */
  public void describeOriginal(LayoutSink sink) throws IOException {
    try (LedgerReader reader = reader()) {
      for (LedgerRecord record = reader.next(); record != null; record = reader.next()) {
        if (record instanceof ContainerRecord container) {
          sink.accept(container.piece());
        } else if (!(record instanceof LedgerHeader)) {
          return;
        }
      }
    }
  }
}
