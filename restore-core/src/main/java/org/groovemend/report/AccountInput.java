package org.groovemend.report;

import java.util.List;

/**
 * What the account for people says, already in words.
 *
 * @param side name of the side, usually the original's file name
 * @param about which recording, how long, treated when
 * @param inShort the whole of it in a sentence or three
 * @param pictures few and small
 * @param parts in order
 * @param fingerprint of the ledger
 * @param check how to compare it, in words
 * @param made by what program, when
 */
public record AccountInput(
    String side,
    String about,
    List<String> inShort,
    List<Figure> pictures,
    List<Part> parts,
    String fingerprint,
    String check,
    String made) {

  /**
   * A heading and what is said under it.
   *
   * @param items one sentence or a few each
   */
  public record Part(String title, List<String> items) {
    public Part {
      items = List.copyOf(items);
    }
  }

  public AccountInput {
    inShort = List.copyOf(inShort);
    pictures = List.copyOf(pictures);
    parts = List.copyOf(parts);
  }
}
