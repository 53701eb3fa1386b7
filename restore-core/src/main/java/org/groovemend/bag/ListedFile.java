package org.groovemend.bag;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.LongConsumer;

/**
 * A file that the manifests of a bag list, and what it must be. For those who check a bag file by
 * file, at once or one after the other; {@link BagValidator#complete} says whether all are there.
 *
 * @param bag the folder
 * @param path within it, as it is on the disk, parts joined by "/"
 * @param checksums that are listed, of the kinds known here; lower-case hexadecimal
 */
public record ListedFile(Path bag, String path, Map<DigestAlgorithm, String> checksums) {

  public ListedFile {
    checksums = Map.copyOf(checksums);
  }

  /**
   * Every file that any manifest lists, in the order of paths; paths that leave the bag are not.
   */
  public static List<ListedFile> of(Path bag) throws IOException {
    List<Manifest> manifests = new ArrayList<>(TagFiles.manifests(bag, "manifest"));
    manifests.addAll(TagFiles.manifests(bag, "tagmanifest"));
    List<ListedFile> files = new ArrayList<>();
    expected(manifests).forEach((path, wanted) -> files.add(new ListedFile(bag, path, wanted)));
    return files;
  }

  /** Checksums by path, of all manifests of a kind that is known. */
  static Map<String, Map<DigestAlgorithm, String>> expected(List<Manifest> manifests) {
    Map<String, Map<DigestAlgorithm, String>> expected = new TreeMap<>();
    for (Manifest manifest : manifests) {
      if (manifest.algorithm() != null) {
        manifest
            .checksums()
            .forEach(
                (path, hex) ->
                    expected
                        .computeIfAbsent(path, p -> new EnumMap<>(DigestAlgorithm.class))
                        .put(manifest.algorithm(), hex));
      }
    }
    return expected;
  }

  /** Where it lies. */
  public Path file() {
    return bag.resolve(path);
  }

  /** An ordinary file that lies in the bag, also when symbolic links on the way are followed. */
  public boolean present() throws IOException {
    return Files.isRegularFile(file(), LinkOption.NOFOLLOW_LINKS)
        && file().toRealPath().startsWith(bag.toRealPath());
  }

  /**
   * Reads the file and compares.
   *
   * @param progress told the bytes of every portion that was read
   * @return what is not as it should be; empty if all checksums hold
   */
  public List<BagFinding> check(LongConsumer progress) throws IOException {
    Map<DigestAlgorithm, String> is = FileDigests.of(file(), checksums.keySet(), progress);
    List<BagFinding> findings = new ArrayList<>();
    new TreeMap<>(checksums)
        .forEach(
            (algorithm, hex) -> {
              if (!is.get(algorithm).equals(hex)) {
                findings.add(
                    new BagFinding(
                        BagFinding.Kind.CHANGED,
                        path,
                        path
                            + " was changed: its "
                            + algorithm.key()
                            + " is "
                            + is.get(algorithm)
                            + ", listed is "
                            + hex
                            + "."));
              }
            });
    return findings;
  }
}
