package org.groovemend.delivery;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.groovemend.audio.FilePath;

/**
 * The right to change a file that is read, changed and written anew: one at a time, among the
 * threads of this program and among programs. Held by a lock on a file beside it, {@code
 * NAME.lock}, which is gone again afterwards; whoever is killed leaves it behind, unlocked, and it
 * does no harm.
 */
public final class FileTurn implements Closeable {

  private static final long PAUSE_MILLIS = 20;

  /**
   * One permit for each lock file: a system may let go of all locks that a program has on a file as
   * soon as it closes one of its channels to it, so there is only ever one.
   */
  private static final Map<Path, Semaphore> PERMITS = new ConcurrentHashMap<>();

  private final Path lockFile;
  private final Semaphore permit;
  private final FileChannel channel;

  private FileTurn(Path lockFile, Semaphore permit, FileChannel channel) {
    this.lockFile = lockFile;
    this.permit = permit;
    this.channel = channel;
  }

  /**
   * Waits for one's turn.
   *
   * @param file to be changed; its folder exists
   * @param patienceMillis how long at most; 0 for not at all
   * @return null if somebody else has it for longer
   * @throws IOException if no lock can be made there
   */
  public static FileTurn take(Path file, long patienceMillis) throws IOException {
    Path lockFile = FilePath.folder(file).toRealPath().resolve(FilePath.name(file) + ".lock");
    Semaphore permit = PERMITS.computeIfAbsent(lockFile, path -> new Semaphore(1, true));
    long until = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(patienceMillis);
    try {
      if (!permit.tryAcquire(patienceMillis, TimeUnit.MILLISECONDS)) {
        return null;
      }
      FileChannel channel = null;
      try {
        channel = locked(lockFile);
        while (channel == null && System.nanoTime() < until) {
          Thread.sleep(PAUSE_MILLIS);
          channel = locked(lockFile);
        }
      } finally {
        if (channel == null) {
          permit.release();
        }
      }
      return channel == null ? null : new FileTurn(lockFile, permit, channel);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return null;
    }
  }

  /** The lock file, locked; null if somebody else has it. */
  private static FileChannel locked(Path lockFile) throws IOException {
    FileChannel channel =
        FileChannel.open(lockFile, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    boolean mine = false;
    try {
      // a file with something in it was given up while we waited, and is not the one that others
      // see
      mine = channel.tryLock() != null && channel.size() == 0;
      return mine ? channel : null;
    } catch (OverlappingFileLockException e) {
      return null;
    } finally {
      if (!mine) {
        channel.close();
      }
    }
  }

  /** Lets others at the file. */
  @Override
  public void close() throws IOException {
    if (!channel.isOpen()) {
      return;
    }
    try (channel) {
      channel.write(ByteBuffer.wrap(new byte[] {1}));
      try {
        Files.deleteIfExists(lockFile);
      } catch (IOException stays) {
        // then it is the one that all see, and goes on to serve
        channel.truncate(0);
      }
    } finally {
      permit.release();
    }
  }
}
