package org.groovemend.lineage;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.ledger.LedgerFiles;

/** Where the ledgers and decisions that a ledger descends from may lie. */
final class Forebears {

  private final List<Path> folders = new ArrayList<>();
  private final List<Path> files = new ArrayList<>();

  /**
   * @param places ledger files, under whatever name, and folders that a person gave
   */
  Forebears(List<Path> places) {
    for (Path place : places) {
      if (Files.isDirectory(place)) {
        folders.add(place);
      } else {
        files.add(place);
        folders.add(place.getParent());
      }
    }
  }

  /** Files that may be the ledger of this name: those beside another one, then those given. */
  List<Path> ledgers(Path descendant, String name) {
    List<Path> found = named(descendant, name);
    found.addAll(files);
    return found;
  }

  /** Files of this name beside a ledger and in the folders given. */
  List<Path> named(Path descendant, String name) {
    List<Path> found = new ArrayList<>();
    List<Path> all = new ArrayList<>(folders);
    all.add(0, descendant.getParent());
    for (Path folder : all) {
      Path file = LedgerFiles.in(folder, name);
      if (file != null && !found.contains(file)) {
        found.add(file);
      }
    }
    return found;
  }

  /** A file that has found its place among the forebears and can be no other of them. */
  void used(Path file) {
    files.remove(file);
  }
}
