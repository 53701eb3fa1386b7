package org.groovemend.fixity;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/** Whole lines of a file, and where each ends; what follows the last line feed is none. */
final class LineSource implements Closeable {

  private final InputStream in;
  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
  private long end;

  LineSource(Path file) throws IOException {
    in = new BufferedInputStream(Files.newInputStream(file), 1 << 16);
  }

  /** The next line, null if there is none that is whole. */
  String next() throws IOException {
    bytes.reset();
    for (int b = in.read(); b >= 0; b = in.read()) {
      if (b == '\n') {
        end += bytes.size() + 1;
        return bytes.toString(StandardCharsets.UTF_8);
      }
      bytes.write(b);
    }
    return null;
  }

  /** Bytes up to the end of the last line. */
  long end() {
    return end;
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
