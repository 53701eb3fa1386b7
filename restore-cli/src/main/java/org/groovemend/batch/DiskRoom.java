package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/**
 * Free space of the disk that results go to, as far as sides under work have not claimed it: a side
 * that would not fit is not begun, so no hours are spent on what cannot be written.
 */
public final class DiskRoom {

  private static final double MEGA = 1e6;

  /** There is too little room for a side; the message is a sentence for people. */
  public static final class TooLittleException extends IOException {
    private static final long serialVersionUID = 1L;

    TooLittleException(String message) {
      super(message);
    }
  }

  private final Path out;
  private final long kept;
  private long claimed;

  /**
   * @param kept bytes that stay free
   */
  public DiskRoom(Path out, long kept) {
    this.out = out;
    this.kept = kept;
  }

  /** Claims room. */
  public synchronized void take(long bytes) throws IOException {
    if (bytes > 0) {
      long free = Files.getFileStore(out).getUsableSpace() - claimed;
      if (free < bytes + kept) {
        throw new TooLittleException(
            String.format(
                Locale.ROOT,
                "the disk of %s has too little room: the results may take %,.0f MB and %,.0f MB are"
                    + " free; make room and run the same command again.",
                out,
                bytes / MEGA,
                Math.max(0, free - kept) / MEGA));
      }
    }
    claimed += bytes;
  }

  synchronized void giveBack(long bytes) {
    claimed -= bytes;
  }
}
