package org.groovemend.bag;

import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.LongConsumer;
import java.util.stream.Stream;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.delivery.WholeFolder;

/**
 * Writes a bag that appears whole or not at all.
 *
 * <pre>{@code
 * try (BagWriter bag = BagWriter.open(folder, false, List.of(original), Set.of(DigestAlgorithm.SHA256))) {
 *   write to bag.payload("service/side.flac") ...
 *   bag.info("External-Identifier", "Q 12/3");
 *   bag.commit(LocalDate.now(zone), n -> {});
 * }
 * }</pre>
 *
 * <p>The same files, texts and date give the same bytes. Not safe for use by several threads at
 * once; payload files may be written by any.
 */
public final class BagWriter implements Closeable {

  static final String DECLARATION = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";
  private static final Set<String> OURS = Set.of("payload-oxum", "bagging-date");

  private final WholeFolder folder;
  private final Set<DigestAlgorithm> algorithms;
  private final List<String> info = new ArrayList<>();

  private BagWriter(WholeFolder folder, Set<DigestAlgorithm> algorithms) {
    this.folder = folder;
    this.algorithms = algorithms;
  }

  /**
   * Prepares a bag.
   *
   * @param bag the folder that is to appear
   * @param replace true if a bag that is there may be replaced; a folder that is no bag, or holds
   *     files that no manifest lists, is never replaced
   * @param inputs files that are read and must not lie in it
   * @param algorithms at least one of SHA-2; SHA256 is usual
   * @throws OutputExistsException if the folder is there and may not be replaced
   */
  public static BagWriter open(
      Path bag, boolean replace, List<Path> inputs, Set<DigestAlgorithm> algorithms)
      throws IOException {
    if (algorithms.isEmpty() || !algorithms.stream().allMatch(DigestAlgorithm::strong)) {
      throw new IllegalArgumentException("a new bag has checksums of SHA-2, not " + algorithms);
    }
    if (replace && Files.exists(bag, LinkOption.NOFOLLOW_LINKS)) {
      requireOnlyABag(bag);
    }
    return new BagWriter(WholeFolder.open(bag, replace, inputs), EnumSet.copyOf(algorithms));
  }

  private static void requireOnlyABag(Path bag) throws IOException {
    if (!Files.isRegularFile(bag.resolve(TagFiles.DECLARATION))) {
      throw new IOException(
          bag + " is there and is no bag; nothing was written. Choose another folder.");
    }
    Set<String> listed = TagFiles.listed(bag);
    try (Stream<Path> all = Files.walk(bag)) {
      for (Path file : all.filter(p -> !Files.isDirectory(p, LinkOption.NOFOLLOW_LINKS)).toList()) {
        String path = BagPath.of(bag, file);
        if (!listed.contains(path)) {
          throw new IOException(
              bag
                  + " is there and holds "
                  + path
                  + ", which no manifest lists; nothing was written. Move that file away or choose"
                  + " another folder.");
        }
      }
    }
  }

  /**
   * Where to write a payload file.
   *
   * @param name below {@code data}, parts joined by "/"
   */
  public Path payload(String name) throws IOException {
    return folder.temporary(TagFiles.PAYLOAD + name);
  }

  /**
   * Adds a line to bag-info.txt, in the order of the calls; a label may come again.
   *
   * @param label such as Source-Organization, External-Identifier, External-Description,
   *     Contact-Name (RFC 8493, section 2.2.2); Payload-Oxum and Bagging-Date are written by
   *     themselves
   * @param value white space in it, line breaks too, becomes one space
   */
  public void info(String label, String value) {
    boolean plain = !label.isBlank() && label.equals(label.strip());
    for (int i = 0; plain && i < label.length(); i++) {
      plain = label.charAt(i) != ':' && !Character.isISOControl(label.charAt(i));
    }
    if (!plain || OURS.contains(label.toLowerCase(Locale.ROOT))) {
      throw new IllegalArgumentException(
          "\"" + label + "\" cannot be a label of bag-info.txt; take a name without a colon");
    }
    String text = value.replaceAll("[\\s\\p{Cntrl}]+", " ").strip();
    if (!text.isEmpty()) {
      info.add(label + ": " + text);
    }
  }

  /**
   * Takes the checksums, writes the tag files and puts the bag in place.
   *
   * @param baggingDate for bag-info.txt
   * @param progress told the bytes of every portion that was read for checksums
   */
  public void commit(LocalDate baggingDate, LongConsumer progress) throws IOException {
    Path content = folder.content();
    Files.createDirectories(content.resolve("data"));
    Map<String, Map<DigestAlgorithm, String>> payload = new TreeMap<>();
    long bytes = 0;
    List<Path> files;
    try (Stream<Path> all = Files.walk(content.resolve("data"))) {
      files = all.filter(Files::isRegularFile).toList();
    }
    for (Path file : files) {
      bytes += Files.size(file);
      payload.put(BagPath.of(content, file), FileDigests.of(file, algorithms, progress));
    }
    List<String> tagFiles = new ArrayList<>();
    write(TagFiles.DECLARATION, DECLARATION, tagFiles);
    List<String> lines = new ArrayList<>(info);
    lines.add("Bagging-Date: " + baggingDate);
    lines.add("Payload-Oxum: " + bytes + "." + files.size());
    write(TagFiles.INFO, String.join("\n", lines) + "\n", tagFiles);
    for (DigestAlgorithm algorithm : algorithms) {
      write("manifest-" + algorithm.key() + ".txt", manifest(payload, algorithm), tagFiles);
    }
    Map<String, Map<DigestAlgorithm, String>> tags = new TreeMap<>();
    for (String name : tagFiles) {
      tags.put(name, FileDigests.of(content.resolve(name), algorithms, n -> {}));
    }
    for (DigestAlgorithm algorithm : algorithms) {
      String name = "tagmanifest-" + algorithm.key() + ".txt";
      write(name, manifest(tags, algorithm), new ArrayList<>());
    }
    folder.commit();
  }

  private static String manifest(
      Map<String, Map<DigestAlgorithm, String>> files, DigestAlgorithm algorithm) {
    StringBuilder lines = new StringBuilder();
    files.forEach(
        (path, digests) ->
            lines
                .append(digests.get(algorithm))
                .append("  ")
                .append(BagPath.encoded(path))
                .append('\n'));
    return lines.toString();
  }

  private void write(String name, String text, List<String> written) throws IOException {
    try (OutputStream out = folder.create(name)) {
      out.write(text.getBytes(StandardCharsets.UTF_8));
    }
    written.add(name);
  }

  /** Without {@link #commit} nothing remains. */
  @Override
  public void close() throws IOException {
    folder.close();
  }
}
