package org.groovemend.ledger;

import java.io.BufferedOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.util.Map;
import org.groovemend.audio.LayoutPiece;

/**
 * Writes a ledger line by line: header, container pieces (at least one), analyses, edits sorted by
 * start and then channel, totals, seal. Nothing is kept but the hash of the last line.
 *
 * <p>Every method throws {@link IllegalStateException} if its record may not stand there or does
 * not fit those before; the message says why, and nothing is written. A ledger without its seal is
 * damaged to every reader.
 */
public final class LedgerWriter implements Closeable {

  private static final int BUFFER_BYTES = 1 << 16;

  private final OutputStream out;
  private final RecordWriter records = new RecordWriter();
  private final RecordOrder order = new RecordOrder();
  private final Sha256 sha256 = new Sha256();
  private String previous = LedgerJson.NO_PREVIOUS;
  private String seal;

  /** Writes to {@code out}, buffering by itself, and closes it in the end. */
  public LedgerWriter(OutputStream out) throws IOException {
    this.out = new BufferedOutputStream(out, BUFFER_BYTES);
  }

  public void header(LedgerHeader header) throws IOException {
    write(header);
  }

  /**
   * The next piece of the original file; hand the method itself to the reader's {@code
   * describeLayout}.
   */
  public void container(LayoutPiece piece) throws IOException {
    write(new ContainerRecord(piece));
  }

  /**
   * What an analyser found.
   *
   * @param name the analyser
   * @param recordOrMap a record, or a map with names as keys; values likewise, or numbers, strings,
   *     booleans, enums, lists
   * @throws IllegalArgumentException if it is not an object with named values
   */
  public void analysis(String name, Object recordOrMap) throws IOException {
    Map<String, Object> result = LedgerJson.MAPPER.convertValue(recordOrMap, LedgerJson.MAP);
    write(new AnalysisRecord(name, result));
  }

  public void edit(LedgerEdit edit) throws IOException {
    write(edit);
  }

  public void totals(LedgerTotals totals) throws IOException {
    write(totals);
  }

  /**
   * Writes the closing record. Nothing may follow.
   *
   * @return the seal, which stands for the whole ledger: 64 lower-case hexadecimal digits
   */
  public String seal() throws IOException {
    write(new LedgerClosing(order.records() + 1, ""));
    out.flush();
    return seal;
  }

  private void write(LedgerRecord record) throws IOException {
    String wrong = order.offer(record);
    if (wrong != null) {
      throw new IllegalStateException(wrong);
    }
    RecordWriter.Line line = records.line(record, previous);
    if (line.size() > LedgerJson.MAX_LINE_BYTES) {
      throw new IllegalArgumentException(
          "a line of " + line.size() + " bytes is longer than " + LedgerJson.MAX_LINE_BYTES);
    }
    if (record instanceof LedgerClosing) {
      seal = line.seal();
    }
    previous = sha256.hex(line.array(), 0, line.size());
    out.write(line.array(), 0, line.size());
    out.write('\n');
  }

  @Override
  public void close() throws IOException {
    out.close();
  }
}
