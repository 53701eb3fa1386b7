package org.groovemend.job.handover;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.FilePath;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.lineage.Forebears;
import org.groovemend.signing.SignatureFile;

/**
 * The files that prove from which ledgers one descends, and how they lie in a package: each parent
 * in a folder of its own below its child, where {@link Forebears} finds it.
 *
 * @param links from the ledger back to the first treatment, as far as they are at hand
 * @param missing the first file that is not at hand; null if there is none
 */
record Descent(List<Link> links, String missing) {

  /**
   * One generation.
   *
   * @param parent its ledger
   * @param name of it in a package, parts joined by "/"
   * @param decisions by which the child came about; null if there are none, or not at hand
   * @param decisionsName of them in a package; null likewise
   */
  record Link(Ledger parent, String name, Path decisions, String decisionsName) {}

  Descent {
    links = List.copyOf(links);
  }

  /**
   * Looks for them.
   *
   * @param places that a person gave
   */
  static Descent of(Ledger ledger, List<Path> places) throws IOException {
    Forebears forebears = new Forebears(places);
    List<Link> links = new ArrayList<>();
    String missing = null;
    String folder = "";
    for (Ledger child = ledger; child != null && child.header().parent() != null; ) {
      Ledger parent = forebears.parent(child).ledger();
      Path decisions = forebears.decisions(child);
      String wanted = child.header().parent().decisions();
      if (missing == null && decisions == null && wanted != null) {
        missing = wanted;
      }
      if (missing == null && parent == null) {
        missing = child.header().parent().ledger();
      }
      if (parent != null) {
        String below = folder + Forebears.FOLDER + "/";
        links.add(
            new Link(
                parent,
                below + child.header().parent().ledger(),
                decisions,
                decisions == null ? null : folder + wanted));
        folder = below;
      }
      child = parent;
    }
    return new Descent(links, missing);
  }

  /**
   * Makes sure that a package can prove the descent by itself.
   *
   * @throws RequestRefusedException if a file is not at hand
   */
  void requireWhole() {
    if (missing != null) {
      throw new RequestRefusedException(
          "edits were taken back in this copy, and a bag of it holds what proves which; "
              + missing
              + " is not at hand; say where it is with --parent");
    }
  }

  /**
   * What a package holds of the forebears, by name in it: their ledgers, signatures, decisions, and
   * what they took away, if that is at hand, so that the earlier copy can be had again too. Not the
   * decisions of the ledger itself, which lie beside it.
   */
  Map<String, Path> toCarry() {
    Map<String, Path> files = new LinkedHashMap<>();
    for (int i = 0; i < links.size(); i++) {
      Link link = links.get(i);
      if (i > 0 && link.decisions() != null) {
        files.put(link.decisionsName(), link.decisions());
      }
      files.put(link.name(), link.parent().path());
      String folder = link.name().substring(0, link.name().lastIndexOf('/') + 1);
      Path signatures = SignatureFile.beside(link.parent().path().toAbsolutePath());
      if (Files.isRegularFile(signatures)) {
        // under the name that belongs to the ledger's name in the package
        String name = link.name().substring(folder.length());
        files.put(folder + FilePath.name(SignatureFile.beside(Path.of(name))), signatures);
      }
      Path removed = LedgerFiles.beside(link.parent()).removed();
      if (removed != null) {
        files.put(folder + FilePath.name(removed), removed);
      }
    }
    return files;
  }
}
