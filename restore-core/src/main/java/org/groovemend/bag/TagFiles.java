package org.groovemend.bag;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;

/** The files beside the payload. */
final class TagFiles {

  static final String DECLARATION = "bagit.txt";
  static final String INFO = "bag-info.txt";
  static final String FETCH = "fetch.txt";
  static final String PAYLOAD = "data/";

  private TagFiles() {}

  /** Payload manifests, or manifests of tag files, by name. */
  static List<Manifest> manifests(Path bag, String prefix) throws IOException {
    Map<String, Path> files = new TreeMap<>();
    try (Stream<Path> all = Files.list(bag)) {
      all.filter(Files::isRegularFile).forEach(file -> files.put(BagPath.of(bag, file), file));
    }
    List<Manifest> manifests = new ArrayList<>();
    for (Map.Entry<String, Path> file : files.entrySet()) {
      if (file.getKey().matches(prefix + "-[A-Za-z0-9-]+\\.txt")) {
        manifests.add(Manifest.parse(file.getKey(), text(file.getValue())));
      }
    }
    return manifests;
  }

  /** UTF-8; a byte order mark, which must not be there, is passed over. */
  static String text(Path file) throws IOException {
    String text = new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
    return text.startsWith("\ufeff") ? text.substring(1) : text;
  }

  /** Every file that belongs to the bag by its own account. */
  static Set<String> listed(Path bag) throws IOException {
    Set<String> listed = new HashSet<>(Set.of(DECLARATION, INFO));
    for (String prefix : List.of("manifest", "tagmanifest")) {
      for (Manifest manifest : manifests(bag, prefix)) {
        listed.add(manifest.name());
        listed.addAll(manifest.checksums().keySet());
      }
    }
    return listed;
  }
}
