package org.groovemend.job.deliver;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.groovemend.audio.FilePath;
import org.groovemend.job.speed.SpeedRecord;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Sha256;

/** The record of a whole delivery: its originals, and every file with its digest. */
final class DeliveryRecord {

  /** Name of the field that holds the version of its form. */
  static final String FORM = "delivery";

  private static final int VERSION = 1;

  private DeliveryRecord() {}

  /**
   * Written last, over all that lies in the folder by then.
   *
   * @param known what was digested already, as it lies on the disk
   */
  static void write(
      DeliverRequest request, Path folder, List<DeliverySide> sides, List<FileFacts> known)
      throws IOException {
    Map<String, String> digests = new HashMap<>();
    known.forEach(file -> digests.put(file.name(), file.sha256()));
    Map<String, Object> all = new LinkedHashMap<>();
    all.put(FORM, VERSION);
    all.put("tool", "groovemend " + request.toolVersion());
    all.put("made", request.now().toString());
    List<Map<String, Object>> originals = new ArrayList<>();
    for (DeliverySide side : sides) {
      originals.add(asMap(side.original()));
    }
    all.put("originals", originals);
    List<Map<String, Object>> files = new ArrayList<>();
    List<Path> written;
    try (Stream<Path> list = Files.list(folder)) {
      written = list.sorted().toList();
    }
    for (Path file : written) {
      String name = FilePath.name(file);
      String digest = digests.containsKey(name) ? digests.get(name) : Sha256.of(file);
      files.add(asMap(new SpeedRecord.Identity(name, Files.size(file), digest)));
    }
    all.put("files", files);
    SealedRecord.write(folder.resolve(DeliverPlan.RECORD), all);
  }

  static Map<String, Object> asMap(FileFacts file) {
    Map<String, Object> map =
        asMap(new SpeedRecord.Identity(file.name(), file.bytes(), file.sha256()));
    map.put("samplesSha256", file.samplesSha256());
    map.put("container", file.container());
    map.put("frames", file.frames());
    map.put("sampleRateHz", file.format().sampleRateHz());
    map.put("channels", file.format().channels());
    map.put("coding", file.format().coding().name());
    map.put("containerBits", file.format().containerBits());
    map.put("significantBits", file.format().significantBits());
    return map;
  }

  static Map<String, Object> asMap(SpeedRecord.Identity identity) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("name", identity.name());
    map.put("bytes", identity.bytes());
    map.put("sha256", identity.sha256());
    return map;
  }
}
