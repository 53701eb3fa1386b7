package org.groovemend.cli;

import java.io.Console;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.InputRejectedException;
import picocli.CommandLine.Option;

/** The passphrase of a private key: never on the command line, where others could read it. */
final class PassphraseOption {

  @Option(
      names = "--passphrase-file",
      paramLabel = "FILE",
      description =
          "A file whose first line is the passphrase of the private key, printable ASCII.")
  private Path file;

  /** Null if no file was named. */
  char[] fromFile() throws IOException {
    if (file == null) {
      return null;
    }
    List<String> lines =
        new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1).lines().toList();
    String first = lines.isEmpty() ? "" : lines.get(0);
    if (first.isEmpty() || !first.chars().allMatch(c -> c >= 0x20 && c < 0x7f)) {
      throw new InputRejectedException(
          file,
          "line 1",
          "it is empty or holds other characters than printable ASCII",
          "write the passphrase there");
    }
    return first.toCharArray();
  }

  /** Of the file, or asked for where somebody sits at a terminal; null if neither. */
  char[] ask(Path key) throws IOException {
    char[] given = fromFile();
    Console console = System.console();
    return given != null || console == null
        ? given
        : console.readPassword("Passphrase of %s: ", key);
  }
}
