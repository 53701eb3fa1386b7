package org.groovemend.ledger;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import org.groovemend.ledger.LedgerDamagedException.Damage;
import org.groovemend.ledger.RecordFields.WrongFieldException;

/**
 * Reads a ledger line by line and checks it as it goes: a record is handed out only when the next
 * line has confirmed its digest. The whole is proved when the {@link LedgerClosing} has been handed
 * out; who acts on records before that must be able to take it back.
 *
 * <p>Memory is two lines, whatever the length of the ledger.
 */
public final class LedgerReader implements Closeable {

  // The first two fields have this form to the byte, so that digests are checked before anything is
  // parsed.
  private static final byte[] START = ascii("{\"record\":\"");
  private static final byte[] MIDDLE = ascii("\",\"previous\":\"");
  private static final byte[] NEXT = ascii("\",");
  private static final byte[] SEAL = ascii(",\"seal\":\"");
  private static final byte[] END = ascii("\"}");
  private static final int HEX = 64;
  private static final int LONGEST_KEY = 16;

  private final InputStream in;
  private final LineReader lines;
  private final RecordOrder order = new RecordOrder();
  private final Sha256 sha256 = new Sha256();
  private long bytes;

  private byte[] line = new byte[1 << 10];
  private int length;
  private long number;
  private RecordKind kind;
  private boolean done;

  /** Reads from {@code in}, buffering by itself, and closes it in the end. */
  public LedgerReader(InputStream in) {
    this.in = in;
    this.lines = new LineReader(in);
  }

  /** Bytes of all lines up to the record handed out last. */
  public long bytes() {
    return bytes;
  }

  /** Number of the line of the record handed out last, from 1. */
  public long line() {
    return number;
  }

  /**
   * The next record, or null after the closing one.
   *
   * @throws LedgerDamagedException if the ledger is not as it was written
   * @throws LedgerVersionException if it is of a later format
   */
  public LedgerRecord next() throws IOException {
    if (done) {
      return null;
    }
    if (number == 0) {
      first();
    } else {
      take();
    }
    if (kind == RecordKind.CLOSING) {
      checkSeal();
      done = true;
    } else {
      checkNext();
    }
    return parse();
  }

  private void first() throws IOException {
    try {
      if (!lines.next()) {
        throw new LedgerDamagedException(1, Damage.NOT_A_LEDGER, "the file is empty");
      }
    } catch (LedgerDamagedException e) {
      throw lines.length() == 0 || beginsAsLedger() ? e : notALedger(e);
    }
    if (keyEnd() < 0 || !RecordKind.HEADER.key().equals(key(keyEnd()))) {
      throw notALedger(null);
    }
    checkPrevious(LedgerJson.NO_PREVIOUS, 1);
    take();
    try {
      long version = RecordReader.version(line, length);
      if (version > LedgerHeader.VERSION) {
        throw new LedgerVersionException(version);
      }
    } catch (WrongFieldException e) {
      throw new LedgerDamagedException(1, Damage.JSON, e.getMessage(), e);
    }
  }

  private boolean beginsAsLedger() {
    int compared = Math.min(lines.length(), START.length);
    return compared > 0 && Arrays.equals(lines.bytes(), 0, compared, START, 0, compared);
  }

  private static LedgerDamagedException notALedger(Exception cause) {
    return new LedgerDamagedException(
        1,
        Damage.NOT_A_LEDGER,
        "it is not the header of a ledger; give a file NAME.ledger.jsonl",
        cause);
  }

  /** The line just read becomes the current one. */
  private void take() {
    length = lines.length();
    bytes += length + 1;
    number = lines.number();
    kind = RecordKind.ofKey(key(keyEnd()));
    line = lines.swapBytes(line);
  }

  /** Reads the line after the current one, which confirms it. */
  private void checkNext() throws IOException {
    if (!lines.next()) {
      throw new LedgerDamagedException(
          number,
          Damage.NOT_SEALED,
          "the file ends here without its closing record; it was cut short");
    }
    long next = lines.number();
    int keyEnd = keyEnd();
    if (keyEnd < 0) {
      throw new LedgerDamagedException(
          next,
          Damage.JSON,
          lines.length() == 0 ? "it is blank" : "it does not begin as a record of a ledger");
    }
    if (RecordKind.ofKey(key(keyEnd)) == null) {
      throw new LedgerDamagedException(
          next, Damage.JSON, "there is no record \"" + key(keyEnd) + "\" in this format");
    }
    checkPrevious(sha256.hex(line, 0, length), number);
  }

  private void checkPrevious(String expected, long damaged) throws LedgerDamagedException {
    int at = keyEnd() + MIDDLE.length;
    for (int i = 0; i < HEX; i++) {
      if (lines.bytes()[at + i] != expected.charAt(i)) {
        throw new LedgerDamagedException(
            damaged,
            Damage.HASH,
            "its digest is "
                + expected
                + ", but line "
                + lines.number()
                + " holds "
                + printable(lines.bytes(), at)
                + " for the line before; one of the two was changed");
      }
    }
  }

  private void checkSeal() throws IOException {
    int at = length - END.length - HEX - SEAL.length;
    if (at < 0
        || !matches(line, length, at, SEAL)
        || !matches(line, length, length - END.length, END)) {
      throw new LedgerDamagedException(number, Damage.SEAL, "it does not end in a seal");
    }
    String expected = sha256.hex(line, 0, at);
    String found = printable(line, at + SEAL.length);
    if (!expected.equals(found)) {
      throw new LedgerDamagedException(
          number, Damage.SEAL, "its seal is " + found + ", but its digest " + expected);
    }
    if (!lines.atEnd()) {
      throw new LedgerDamagedException(
          number, Damage.AFTER_THE_END, "something follows the closing record");
    }
  }

  private LedgerRecord parse() throws IOException {
    LedgerRecord record;
    try {
      record = RecordReader.read(kind, line, length);
    } catch (WrongFieldException e) {
      throw new LedgerDamagedException(number, Damage.JSON, e.getMessage(), e);
    }
    String wrong = order.offer(record);
    if (wrong != null) {
      throw new LedgerDamagedException(number, Damage.SEQUENCE, wrong);
    }
    return record;
  }

  /**
   * Where the kind's key ends in the line just read; -1 if the first two fields are not there in
   * their form.
   */
  private int keyEnd() {
    byte[] bytes = lines.bytes();
    int limit = lines.length();
    if (!matches(bytes, limit, 0, START)) {
      return -1;
    }
    int end = START.length;
    while (end < limit && bytes[end] != '"' && end - START.length < LONGEST_KEY) {
      end++;
    }
    boolean form =
        matches(bytes, limit, end, MIDDLE)
            && matches(bytes, limit, end + MIDDLE.length + HEX, NEXT);
    return form ? end : -1;
  }

  private String key(int end) {
    return new String(lines.bytes(), START.length, end - START.length, StandardCharsets.ISO_8859_1);
  }

  private static boolean matches(byte[] bytes, int limit, int at, byte[] wanted) {
    if (at + wanted.length > limit) {
      return false;
    }
    for (int i = 0; i < wanted.length; i++) {
      if (bytes[at + i] != wanted[i]) {
        return false;
      }
    }
    return true;
  }

  /** The 64 bytes that should be hexadecimal digits, for a message. */
  private static String printable(byte[] bytes, int at) {
    StringBuilder text = new StringBuilder(HEX);
    for (int i = 0; i < HEX; i++) {
      byte b = bytes[at + i];
      text.append(b > ' ' && b < 0x7f ? (char) b : '?');
    }
    return text.toString();
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
