package org.groovemend.bag;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.LongConsumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.groovemend.bag.BagFinding.Kind;

/**
 * Says whether a folder is a bag, complete and valid (RFC 8493, section 3). Only reads; symbolic
 * links are not followed.
 */
public final class BagValidator {

  private static final Pattern VERSION =
      Pattern.compile(
          "BagIt-Version:\\s*(\\d+)\\.(\\d+)\\s+Tag-File-Character-Encoding:\\s*(\\S+)\\s*");
  private static final Pattern OXUM =
      Pattern.compile("(?im)^Payload-Oxum:[ \\t]*(\\d+)\\.(\\d+)[ \\t]*$");

  private final Path bag;
  private final List<BagFinding> findings = new ArrayList<>();
  private final Map<String, Long> payload = new TreeMap<>();

  private BagValidator(Path bag) {
    this.bag = bag;
  }

  /**
   * Looks whether everything is there; opens no payload file.
   *
   * @throws java.nio.file.NoSuchFileException if there is no such folder
   */
  public static BagReport complete(Path bag) throws IOException {
    return new BagValidator(bag).run(false, n -> {});
  }

  /**
   * Looks whether everything is there and unchanged.
   *
   * @param progress told the bytes of every portion that was read
   */
  public static BagReport validate(Path bag, LongConsumer progress) throws IOException {
    return new BagValidator(bag).run(true, progress);
  }

  private BagReport run(boolean checksums, LongConsumer progress) throws IOException {
    List<Manifest> ofPayload = TagFiles.manifests(bag, "manifest");
    List<Manifest> ofTags = TagFiles.manifests(bag, "tagmanifest");
    declaration();
    if (!Files.isDirectory(bag.resolve("data"), LinkOption.NOFOLLOW_LINKS)) {
      found(Kind.MISSING, "data", "The folder data is missing.");
    } else {
      listPayload();
    }
    if (ofPayload.isEmpty()) {
      found(Kind.MISSING, "manifest-sha256.txt", "There is no manifest of the payload.");
    }
    for (Manifest manifest : ofPayload) {
      payloadOf(manifest);
    }
    for (Manifest manifest : ofTags) {
      findings.addAll(manifest.findings());
      for (String path : manifest.checksums().keySet()) {
        if (!present(path)) {
          found(Kind.MISSING, path, manifest.name() + " lists " + path + ", which is missing.");
        }
      }
    }
    oxum();
    if (Files.exists(bag.resolve(TagFiles.FETCH))) {
      found(Kind.NOT_CHECKED, TagFiles.FETCH, "fetch.txt is there; nothing was fetched.");
    }
    if (checksums) {
      checksums(ofPayload, ofTags, progress);
    }
    long bytes = payload.values().stream().mapToLong(Long::longValue).sum();
    return new BagReport(bag, findings, payload.size(), bytes, checksums);
  }

  private void found(Kind kind, String file, String what) {
    findings.add(new BagFinding(kind, file, what));
  }

  private boolean present(String path) throws IOException {
    return new ListedFile(bag, path, Map.of()).present();
  }

  private void declaration() throws IOException {
    if (!present(TagFiles.DECLARATION)) {
      found(Kind.MISSING, TagFiles.DECLARATION, "bagit.txt is missing: this is no bag.");
      return;
    }
    Matcher matcher = VERSION.matcher(TagFiles.text(bag.resolve(TagFiles.DECLARATION)));
    if (!matcher.matches()) {
      found(
          Kind.MALFORMED,
          TagFiles.DECLARATION,
          "bagit.txt does not hold the two lines of a declaration.");
    } else if (!matcher.group(3).equalsIgnoreCase("UTF-8")) {
      found(
          Kind.MALFORMED,
          TagFiles.DECLARATION,
          "The tag files are in " + matcher.group(3) + "; only UTF-8 is read.");
    } else if (Integer.parseInt(matcher.group(1)) > 1) {
      found(
          Kind.NOT_CHECKED,
          TagFiles.DECLARATION,
          "BagIt "
              + matcher.group(1)
              + "."
              + matcher.group(2)
              + " is newer than the 1.0 this program knows.");
    }
  }

  private void listPayload() throws IOException {
    try (Stream<Path> all = Files.walk(bag.resolve("data"))) {
      for (Path path : all.sorted().toList()) {
        String name = BagPath.of(bag, path);
        if (Files.isRegularFile(path, LinkOption.NOFOLLOW_LINKS)) {
          payload.put(name, Files.size(path));
        } else if (!Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS)) {
          found(Kind.UNSAFE, name, name + " is not an ordinary file; it was not followed.");
        }
      }
    }
  }

  private void payloadOf(Manifest manifest) {
    findings.addAll(manifest.findings());
    for (String path : manifest.checksums().keySet()) {
      if (!path.startsWith(TagFiles.PAYLOAD)) {
        found(Kind.MALFORMED, path, manifest.name() + " lists " + path + ", which is no payload.");
      } else if (!payload.containsKey(path)) {
        found(Kind.MISSING, path, manifest.name() + " lists " + path + ", which is missing.");
      }
    }
    for (String path : payload.keySet()) {
      if (!manifest.checksums().containsKey(path)) {
        found(Kind.EXTRA, path, path + " is not listed in " + manifest.name() + ".");
      }
    }
  }

  /** A quick check by length and number, RFC 8493, section 2.2.2. */
  private void oxum() throws IOException {
    if (!present(TagFiles.INFO)) {
      return;
    }
    Matcher matcher = OXUM.matcher(TagFiles.text(bag.resolve(TagFiles.INFO)));
    if (matcher.find()) {
      long bytes = payload.values().stream().mapToLong(Long::longValue).sum();
      String is = bytes + "." + payload.size();
      String said = matcher.group(1) + "." + matcher.group(2);
      if (!is.equals(said)) {
        found(
            Kind.CHANGED,
            TagFiles.INFO,
            "bag-info.txt announces a payload of " + said + " (bytes.files), there is " + is + ".");
      }
    }
  }

  private void checksums(List<Manifest> ofPayload, List<Manifest> ofTags, LongConsumer progress)
      throws IOException {
    boolean known = false;
    for (List<Manifest> manifests : List.of(ofPayload, ofTags)) {
      for (Manifest manifest : manifests) {
        if (manifest.algorithm() == null) {
          found(
              Kind.NOT_CHECKED,
              manifest.name(),
              manifest.name() + ": checksums of this kind are not known here.");
          continue;
        }
        known |= manifests == ofPayload;
      }
    }
    if (!known && !ofPayload.isEmpty()) {
      found(
          Kind.MALFORMED,
          ofPayload.get(0).name(),
          "No manifest has checksums of a kind that is known here, so nothing can be told.");
    }
    List<Manifest> all = new ArrayList<>(ofPayload);
    all.addAll(ofTags);
    for (Map.Entry<String, Map<DigestAlgorithm, String>> one :
        ListedFile.expected(all).entrySet()) {
      ListedFile file = new ListedFile(bag, one.getKey(), one.getValue());
      if (file.present()) {
        findings.addAll(file.check(progress));
      }
    }
  }
}
