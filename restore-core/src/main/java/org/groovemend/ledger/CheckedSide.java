package org.groovemend.ledger;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.SideReader;

/** One of the audio files of a ledger: opened, and compared with its facts. */
final class CheckedSide implements Closeable {

  private final String role;
  private final FileFacts facts;
  private final Path path;
  private SideReader reader;
  private boolean comparable;
  private boolean samplesHold;

  /**
   * @param facts null if there should be no such file
   * @param path null if the file is not at hand
   */
  CheckedSide(String role, FileFacts facts, Path path) {
    this.role = role;
    this.facts = facts;
    this.path = path;
  }

  /** The opened file if it has the shape of the facts, so that it can be compared; else null. */
  SideReader reader() {
    return comparable ? reader : null;
  }

  boolean samplesHold() {
    return samplesHold;
  }

  /** Adds the two checks of the file and of its samples. */
  void check(SideOpener opener, String fileCheck, String samplesCheck, List<Check> checks)
      throws IOException {
    String missing =
        facts == null
            ? "Does not apply: only repairs ran, there is no " + role + " file."
            : path == null ? "The " + role + " file " + facts.name() + " is not at hand." : null;
    if (missing != null) {
      checks.add(Check.notChecked(fileCheck, missing));
      checks.add(Check.notChecked(samplesCheck, missing));
      return;
    }
    try {
      checks.add(checkFile(fileCheck));
    } catch (IOException e) {
      checks.add(Check.fails(fileCheck, facts.sha256(), "", cannotBeRead(e)));
    }
    try {
      checks.add(checkSamples(opener, samplesCheck));
    } catch (IOException e) {
      comparable = false;
      checks.add(Check.fails(samplesCheck, facts.samplesSha256(), "", cannotBeRead(e)));
    }
  }

  private String cannotBeRead(IOException e) {
    return "The " + role + " file cannot be read: " + e.getMessage();
  }

  private Check checkFile(String name) throws IOException {
    long bytes = Files.size(path);
    String found = Sha256.of(path);
    return Reversal.compare(facts, bytes, found) == null
        ? Check.holds(name, found, "The " + role + " file is the one of the ledger, byte for byte.")
        : Check.fails(
            name,
            facts.bytes() + " bytes of SHA-256 " + facts.sha256(),
            bytes + " bytes of SHA-256 " + found,
            "The "
                + role
                + " file "
                + path.getFileName()
                + " is not the one of the ledger, or was altered.");
  }

  private Check checkSamples(SideOpener opener, String name) throws IOException {
    reader = opener.open(path);
    Mismatch shape = SideDigests.shape(role + " file", facts, reader);
    if (shape != null) {
      return Check.fails(
          name,
          shape.expected(),
          shape.found(),
          "The " + role + " file has another shape than the ledger says.");
    }
    comparable = true;
    String found = SideDigests.samples(reader);
    samplesHold = found.equals(facts.samplesSha256());
    return samplesHold
        ? Check.holds(name, found, "The samples of the " + role + " file are those of the ledger.")
        : Check.fails(
            name,
            facts.samplesSha256(),
            found,
            "The samples of the " + role + " file are not those of the ledger.");
  }

  @Override
  public void close() throws IOException {
    if (reader != null) {
      reader.close();
    }
  }
}
