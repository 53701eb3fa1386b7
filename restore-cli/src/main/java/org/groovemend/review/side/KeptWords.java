package org.groovemend.review.side;

import java.io.BufferedOutputStream;
import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;
import org.groovemend.ledger.LedgerEdit;

/**
 * The original words of all edits in a file of their own, that only this user may read and that is
 * gone when it is closed, or the program killed: a ledger can only be read forwards, a person looks
 * anywhere.
 */
final class KeptWords implements Closeable {

  private static final int BUFFER_BYTES = 1 << 16;

  private final Path file;
  private final int width;
  private long[] offsets = new long[1024];
  private OutputStream out;
  private FileChannel channel;
  private int edits;

  KeptWords(AudioFormat format) throws IOException {
    width = format.bytesPerSample();
    // made with rights for the owner alone where the system knows such rights
    file = Files.createTempFile("groovemend-review-", ".words");
    out = new BufferedOutputStream(Files.newOutputStream(file), BUFFER_BYTES);
  }

  void add(LedgerEdit edit) throws IOException {
    out.write(edit.original());
    if (edits + 1 == offsets.length) {
      offsets = Arrays.copyOf(offsets, Math.multiplyExact(2, offsets.length));
    }
    offsets[edits + 1] = offsets[edits] + edit.original().length;
    edits++;
  }

  /** All are added. */
  void ready() throws IOException {
    out.close();
    channel = FileChannel.open(file, StandardOpenOption.READ);
    try {
      // systems that let go of a name while the file is open then clear it away even after a kill
      Files.delete(file);
    } catch (IOException staysUntilClosed) {
      // others do it in close()
    }
  }

  /** The original's words over those of a restored side; several may be used at once. */
  WordSource over(WordSource restored, EditTable table) {
    return new Patched(restored, table);
  }

  private final class Patched implements WordSource {
    private final WordSource restored;
    private final EditTable table;

    Patched(WordSource restored, EditTable table) {
      this.restored = restored;
      this.table = table;
    }

    @Override
    public AudioFormat format() {
      return restored.format();
    }

    @Override
    public long frames() {
      return restored.frames();
    }

    @Override
    public void readWords(long firstFrame, int count, long[][] into, int offset)
        throws IOException {
      restored.readWords(firstFrame, count, into, offset);
      long end = firstFrame + count;
      for (int i = table.firstReaching(firstFrame); i < table.size() && table.start(i) < end; i++) {
        long from = Math.max(firstFrame, table.start(i));
        long to = Math.min(end, table.end(i));
        if (from < to) {
          byte[] words = read(i, from - table.start(i), (int) (to - from));
          long[] out = into[table.channel(i)];
          for (int k = 0; k < to - from; k++) {
            out[offset + (int) (from - firstFrame) + k] =
                Words.getLittleEndian(words, k * width, width);
          }
        }
      }
    }
  }

  private byte[] read(int edit, long skip, int count) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate(count * width);
    long at = offsets[edit] + skip * width;
    while (bytes.hasRemaining()) {
      int n = channel.read(bytes, at + bytes.position());
      if (n < 0) {
        throw new EOFException(file + " became shorter while it was in use");
      }
    }
    return bytes.array();
  }

  @Override
  public void close() throws IOException {
    try {
      out.close();
      if (channel != null) {
        channel.close();
      }
    } finally {
      Files.deleteIfExists(file);
    }
  }
}
