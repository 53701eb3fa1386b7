package org.groovemend.batch;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.time.temporal.ChronoUnit;

/**
 * Keeps two runs from writing to the same output folder. The system holds the lock for the process
 * and takes it back when the process ends, however it ends; the file stays and tells who had it.
 */
final class BatchLock implements Closeable {

  /** Who waits for nobody writes his name into bytes behind the locked one. */
  private static final int TEXT_AT = 1;

  private static final int TEXT_BYTES = 200;

  private final FileChannel channel;

  private BatchLock(FileChannel channel) {
    this.channel = channel;
  }

  /**
   * Takes the lock.
   *
   * @throws CatalogueException if another run has it; the sentence says which
   */
  static BatchLock take(Path file, Instant now) throws IOException {
    FileChannel channel =
        FileChannel.open(
            file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
    try {
      FileLock lock = null;
      try {
        lock = channel.tryLock(0, 1, false);
      } catch (OverlappingFileLockException e) {
        // this very process has it
      }
      if (lock == null) {
        throw new CatalogueException(
            file.toAbsolutePath().getParent()
                + " is being written by another run"
                + holder(channel)
                + "; wait until it is done, or choose another --out.");
      }
      String text =
          " process "
              + ProcessHandle.current().pid()
              + ", since "
              + now.truncatedTo(ChronoUnit.SECONDS)
              + "\n";
      channel.truncate(0);
      channel.write(ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8)), 0);
      return new BatchLock(channel);
    } catch (IOException e) {
      channel.close();
      throw e;
    }
  }

  private static String holder(FileChannel channel) {
    ByteBuffer text = ByteBuffer.allocate(TEXT_BYTES);
    try {
      int n = channel.read(text, TEXT_AT);
      return n <= 0
          ? ""
          : " (" + new String(text.array(), 0, n, StandardCharsets.UTF_8).strip() + ")";
    } catch (IOException e) {
      // a system on which locked bytes cannot be read
      return "";
    }
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}
