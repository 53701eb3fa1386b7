package org.groovemend.lineage;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.groovemend.audio.FilePath;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerDamagedException;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.ledger.LedgerVersionException;
import org.groovemend.ledger.Sha256;

/**
 * Finds the ledgers and decisions that a ledger descends from. For every generation it looks beside
 * the descendant, in the folder {@link #FOLDER} beside it, where the descendant hints ({@link
 * ParentPlace}), and where a person said. What is found counts by seal or digest alone, never by
 * its name or place.
 */
public final class Forebears {

  /** Folder beside a ledger in which the one that it descends from may lie, as in a bag. */
  public static final String FOLDER = "parent";

  private final List<Path> folders = new ArrayList<>();
  private final List<Path> files = new ArrayList<>();

  /**
   * @param places ledger files, under whatever name, and folders that a person gave
   */
  public Forebears(List<Path> places) {
    for (Path place : places) {
      if (Files.isDirectory(place)) {
        folders.add(place);
      } else {
        files.add(place);
        folders.add(FilePath.folder(place));
      }
    }
  }

  /**
   * What the search for a parent found.
   *
   * @param ledger the parent, undamaged and of the seal that its child names; null if it is not at
   *     hand
   * @param trouble what is wrong with the first file in its place; null if there is none
   * @param foundSeal seal of that file; "" if it has none
   */
  public record Found(Ledger ledger, String trouble, String foundSeal) {}

  /**
   * The ledger that another descends from.
   *
   * @param child not a first treatment
   */
  public Found parent(Ledger child) throws IOException {
    LedgerParent link = child.header().parent();
    Found trouble = new Found(null, null, "");
    List<Path> candidates = named(child, link.ledger());
    candidates.addAll(files);
    for (Path candidate : candidates) {
      if (Files.isSameFile(candidate, child.path())) {
        continue;
      }
      try {
        Ledger parent = Ledger.open(candidate);
        if (parent.seal().equals(link.seal())) {
          // it can be no other of the forebears
          files.remove(candidate);
          return new Found(parent, null, "");
        }
        trouble = first(trouble, candidate + " is another ledger.", parent.seal());
      } catch (LedgerDamagedException | LedgerVersionException e) {
        trouble = first(trouble, candidate + ": " + e.getMessage(), "");
      }
    }
    return trouble;
  }

  private static Found first(Found earlier, String trouble, String foundSeal) {
    return earlier.trouble() != null ? earlier : new Found(null, trouble, foundSeal);
  }

  /** Files that may be the decisions by which a ledger came about. */
  List<Path> decisionsNamed(Ledger child) {
    return named(child, child.header().parent().decisions());
  }

  /** The decisions by which a ledger came about, by their digest; null if they are not at hand. */
  public Path decisions(Ledger child) throws IOException {
    LedgerParent link = child.header().parent();
    if (link.decisions() != null) {
      for (Path candidate : decisionsNamed(child)) {
        if (Sha256.of(candidate).equals(link.decisionsSha256())) {
          return candidate;
        }
      }
    }
    return null;
  }

  /**
   * All forebears, the parent first.
   *
   * @return up to the first treatment, or to the last that is at hand
   */
  public List<Ledger> of(Ledger ledger) throws IOException {
    List<Ledger> all = new ArrayList<>();
    Ledger each = ledger;
    while (each != null && each.header().parent() != null) {
      each = parent(each).ledger();
      if (each != null) {
        all.add(each);
      }
    }
    return all;
  }

  /** Files of this name in every place where a forebear may lie. */
  private List<Path> named(Ledger descendant, String name) {
    Path own = FilePath.folder(descendant.path());
    Set<Path> all = new LinkedHashSet<>(List.of(own, own.resolve(FOLDER)));
    Path hint = ParentPlace.of(descendant);
    if (hint != null) {
      all.add(hint);
    }
    all.addAll(folders);
    List<Path> found = new ArrayList<>();
    for (Path folder : all) {
      Path file = LedgerFiles.in(folder, name);
      if (file != null) {
        found.add(file);
      }
    }
    return found;
  }
}
