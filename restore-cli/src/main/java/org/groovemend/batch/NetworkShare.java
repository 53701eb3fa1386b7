package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/**
 * Whether a folder lies on storage that other machines have too. SQLite's write-ahead log needs
 * memory that all who have the file open share, which machines do not (sqlite.org/wal.html).
 */
final class NetworkShare {

  /**
   * What Linux, macOS and Windows call file systems of this kind, as far as known (common practice,
   * no source); FUSE serves both, so it is taken for a share.
   */
  private static final List<String> KINDS =
      List.of(
          "nfs",
          "cifs",
          "smb",
          "9p",
          "afs",
          "ceph",
          "lustre",
          "gpfs",
          "beegfs",
          "glusterfs",
          "fuse",
          "gfs2",
          "ocfs2",
          "virtiofs",
          "webdav",
          "ncpfs");

  private NetworkShare() {}

  static boolean holds(Path folder) {
    try {
      return isShare(Files.getFileStore(folder).type());
    } catch (IOException | SecurityException e) {
      return false;
    }
  }

  static boolean isShare(String kind) {
    String lower = kind.toLowerCase(Locale.ROOT);
    return KINDS.stream().anyMatch(lower::startsWith);
  }
}
