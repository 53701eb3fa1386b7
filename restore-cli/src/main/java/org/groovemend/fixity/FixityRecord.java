package org.groovemend.fixity;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.Closeable;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.channels.Channels;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What the rounds over a store have found, JSON Lines, one round behind the other: a line when it
 * begins, one for each thing that was checked, one at its end. A round without an end is gone on
 * with; half a line, as a process leaves it that was killed, is cut off.
 */
final class FixityRecord implements Closeable {

  /** Beyond any line, since some systems let nobody read a locked byte. */
  private static final long LOCKED_BYTE = Long.MAX_VALUE - 1;

  private final RandomAccessFile file;
  private final ObjectMapper mapper = new ObjectMapper();
  private final Set<String> done = new HashSet<>();

  private FixityRecord(RandomAccessFile file) {
    this.file = file;
  }

  /**
   * Opens it, makes it if it is missing.
   *
   * @param thorough a round of the other kind is not gone on with
   * @throws FixityRecordException if it is a file of another kind, or of another store
   */
  static FixityRecord open(Path path, Path store, boolean thorough, Instant now)
      throws IOException {
    if (!Files.isDirectory(path.toAbsolutePath().getParent())) {
      throw new FixityRecordException(
          path + ": there is no such folder; name a file in one that is there with --record.");
    }
    FixityRecord record;
    try {
      record = new FixityRecord(new RandomAccessFile(path.toFile(), "rw"));
    } catch (IOException e) {
      throw new FixityRecordException(
          path + " cannot be written; name another file with --record. " + e.getMessage());
    }
    try {
      record.requireAlone(path);
      if (!record.unfinished(path, store, thorough)) {
        Map<String, Object> begin = new LinkedHashMap<>();
        begin.put("fixity", 1);
        begin.put("store", store.toString());
        begin.put("begun", now.toString());
        begin.put("thorough", thorough);
        record.line(begin);
      }
      return record;
    } catch (IOException | RuntimeException e) {
      record.close();
      throw e;
    }
  }

  /** Two rounds that write to one record would write over one another's lines. */
  private void requireAlone(Path path) throws FixityRecordException {
    boolean alone;
    try {
      // ends with the process, however that ends
      alone = file.getChannel().tryLock(LOCKED_BYTE, 1, false) != null;
    } catch (OverlappingFileLockException e) {
      alone = false;
    } catch (IOException e) {
      // a share that knows no locks
      alone = true;
    }
    if (!alone) {
      throw new FixityRecordException(
          path
              + ": another verification is writing this record; wait until it is over, or name"
              + " another file with --record.");
    }
  }

  /** Reads what is there; true if its last round has no end. */
  private boolean unfinished(Path path, Path store, boolean thorough) throws IOException {
    boolean open = false;
    long whole = 0;
    // by the file that is locked: a system forgets the lock when any other one of it is closed
    LineSource lines = new LineSource(Channels.newInputStream(file.getChannel()));
    for (String line = lines.next(); line != null; line = lines.next()) {
      JsonNode node;
      try {
        node = mapper.readTree(line);
      } catch (JsonProcessingException e) {
        throw other(path);
      }
      if (node.has("fixity")) {
        if (!node.path("store").asText().equals(store.toString())) {
          throw new FixityRecordException(
              path
                  + " is the record of "
                  + node.path("store").asText()
                  + "; name another one with --record.");
        }
        done.clear();
        open = node.path("thorough").asBoolean() == thorough;
      } else if (node.has("ended")) {
        done.clear();
        open = false;
      } else if (node.has("key")) {
        // what did not hold is looked at again
        if (node.path("findings").isEmpty()) {
          done.add(node.path("key").asText());
        }
      } else {
        throw other(path);
      }
      whole = lines.end();
    }
    file.setLength(whole);
    file.seek(whole);
    if (!open) {
      done.clear();
    }
    return open;
  }

  private static FixityRecordException other(Path path) {
    return new FixityRecordException(
        path + " is no record of a verification; it was left alone. Name another with --record.");
  }

  /** Whether this round has found that it holds. */
  boolean done(String key) {
    return done.contains(key);
  }

  /** Notes what was checked. */
  void add(String key, List<FixityFinding> findings) throws IOException {
    Map<String, Object> line = new LinkedHashMap<>();
    line.put("key", key);
    line.put("findings", findings);
    line(line);
  }

  /** Ends the round. */
  void end(Instant now, boolean holds) throws IOException {
    Map<String, Object> line = new LinkedHashMap<>();
    line.put("ended", now.toString());
    line.put("holds", holds);
    line(line);
    file.getFD().sync();
  }

  private synchronized void line(Map<String, Object> content) throws IOException {
    file.write((mapper.writeValueAsString(content) + "\n").getBytes(StandardCharsets.UTF_8));
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
