package org.groovemend.audio.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.SideReader;

/** What tests do with sides. */
final class Sides {

  private Sides() {}

  static SideReader open(Path folder, byte[] file) throws IOException {
    Path path = folder.resolve("side");
    Files.write(path, file);
    return SideFiles.open(path);
  }

  static long[][] read(SideReader side) throws IOException {
    int frames = Math.toIntExact(side.frames());
    long[][] words = new long[side.format().channels()][frames];
    side.readWords(0, frames, words, 0);
    return words;
  }

  /** The file again, from layout pieces and the samples alone. */
  static byte[] rebuild(SideReader side) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    FileRebuilder rebuilder = new FileRebuilder(side, out);
    side.describeLayout(
        piece -> {
          if (piece instanceof LayoutPiece.Bytes kept) {
            assertThat(kept.content().length).isBetween(1, LayoutPiece.MAX_BYTES);
          }
          rebuilder.accept(piece);
        });
    return out.toByteArray();
  }
}
