package org.groovemend.batch;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NetworkShareTest {

  @ParameterizedTest
  @ValueSource(
      strings = {"nfs", "nfs4", "cifs", "smb3", "smbfs", "fuse.sshfs", "lustre", "ceph", "9p"})
  void sharesAreKnownByTheirKind(String kind) {
    assertThat(NetworkShare.isShare(kind)).isTrue();
  }

  @ParameterizedTest
  @ValueSource(strings = {"ext4", "xfs", "btrfs", "zfs", "tmpfs", "overlay", "apfs", "NTFS"})
  void disksOfTheMachineAreNone(String kind) {
    assertThat(NetworkShare.isShare(kind)).isFalse();
  }

  @Test
  void whatCannotBeAskedIsTakenForADisk(@TempDir Path dir) {
    assertThat(NetworkShare.holds(dir.resolve("missing"))).isFalse();
  }
}
