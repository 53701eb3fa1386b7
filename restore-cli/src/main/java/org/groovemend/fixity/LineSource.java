package org.groovemend.fixity;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;

/** Whole lines, and where each ends; what follows the last line feed is none. Closes nothing. */
final class LineSource {

  private final InputStream in;
  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
  private long end;

  LineSource(InputStream in) {
    this.in = new BufferedInputStream(in, 1 << 16);
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
}
