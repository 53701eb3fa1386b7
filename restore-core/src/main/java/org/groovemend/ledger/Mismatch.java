package org.groovemend.ledger;

/**
 * One difference that was found.
 *
 * @param place where: "restored file side.restored.wav", "edit 12 (channel 0, frames 400 to 431)"
 * @param expected what the ledger says
 * @param found what is there
 */
public record Mismatch(String place, String expected, String found) {
  @Override
  public String toString() {
    return place + ": expected " + expected + ", found " + found;
  }
}
