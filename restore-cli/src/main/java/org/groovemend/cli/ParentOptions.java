package org.groovemend.cli;

import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Option;

/** Where the ledgers lie that one descends from. */
final class ParentOptions {

  @Option(
      names = "--parent",
      paramLabel = "LEDGER|DIR",
      description =
          "A ledger that this one descends from, or a folder of such; may be repeated. Default: beside the ledger, or where it lay when edits were taken back.")
  private List<Path> places = List.of();

  List<Path> places() {
    return places;
  }
}
