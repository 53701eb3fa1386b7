package org.groovemend.ledger;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;

/** Passes bytes on, counting and digesting them. */
final class CountingDigestStream extends FilterOutputStream {

  private final Sha256 sha256 = new Sha256();
  private final byte[] one = new byte[1];
  private long bytes;

  CountingDigestStream(OutputStream out) {
    super(out);
  }

  @Override
  public void write(int b) throws IOException {
    one[0] = (byte) b;
    write(one, 0, 1);
  }

  @Override
  public void write(byte[] buffer, int offset, int length) throws IOException {
    out.write(buffer, offset, length);
    sha256.update(buffer, offset, length);
    bytes += length;
  }

  long bytes() {
    return bytes;
  }

  String hex() {
    return sha256.hex();
  }
}
