package org.groovemend.ledger;

import java.nio.file.Path;
import org.groovemend.audio.FilePath;

/**
 * Names of what is written for a side: NAME is the original's file name without its extension. Two
 * originals that differ only in their extension want the same names; the second then meets files
 * that exist.
 *
 * @param name NAME
 * @param removedExtension "flac", or "wav" where FLAC cannot hold the words
 */
public record LedgerNames(String name, String removedExtension) {

  private static final String LEDGER = ".ledger.jsonl";

  /**
   * The names for an original.
   *
   * @param containerBits of the original's words: 64-bit words go to a WAV file of halves, see
   *     {@link SplitWords}
   * @throws IllegalArgumentException if the path has no file name, as that of a root has none
   */
  public static LedgerNames of(Path original, int containerBits) {
    if (original.getFileName() == null) {
      throw new IllegalArgumentException(original + " is not the name of a file");
    }
    String file = FilePath.name(original);
    int dot = file.lastIndexOf('.');
    return named(dot > 0 ? file.substring(0, dot) : file, containerBits);
  }

  /** The names for an original whose results are called otherwise than itself. */
  public static LedgerNames named(String name, int containerBits) {
    return new LedgerNames(name, containerBits == Long.SIZE ? "wav" : "flac");
  }

  /** The names that go with a ledger file, whatever its original is called. */
  public static LedgerNames beside(Path ledger, int containerBits) {
    String file = FilePath.name(ledger);
    return named(
        file.endsWith(LEDGER) ? file.substring(0, file.length() - LEDGER.length()) : file,
        containerBits);
  }

  public String restored() {
    return name + ".restored.wav";
  }

  public String ledger() {
    return name + LEDGER;
  }

  public String removed() {
    return name + ".removed." + removedExtension;
  }

  public String report() {
    return name + ".report.html";
  }

  public String disc() {
    return name + ".disc.png";
  }
}
