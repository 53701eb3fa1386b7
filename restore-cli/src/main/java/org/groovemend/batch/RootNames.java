package org.groovemend.batch;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Names of the folders that a collection comes from: the first part of the places of its sides.
 * Once given, a name stays with its folder, so that two folders of the same name in two runs do not
 * write over each other's results.
 */
public final class RootNames {

  private final Map<String, String> folders;

  /**
   * @param known folders by the names that earlier runs gave them
   */
  public RootNames(Map<String, String> known) {
    folders = new LinkedHashMap<>(known);
  }

  /** The name of a folder; a new one if it has none. */
  public String of(Path folder) {
    String path = folder.toAbsolutePath().normalize().toString();
    for (Map.Entry<String, String> one : folders.entrySet()) {
      if (one.getValue().equals(path)) {
        return one.getKey();
      }
    }
    Path last = folder.toAbsolutePath().normalize().getFileName();
    String wanted = last == null ? "root" : last.toString();
    String name = wanted;
    for (int n = 2; folders.containsKey(name); n++) {
      name = wanted + "-" + n;
    }
    folders.put(name, path);
    return name;
  }

  /** Folders by name. */
  public Map<String, String> folders() {
    return Map.copyOf(folders);
  }
}
