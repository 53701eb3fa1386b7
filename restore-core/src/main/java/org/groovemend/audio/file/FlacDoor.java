package org.groovemend.audio.file;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.flac.FlacFrameRebuilder;
import org.groovemend.audio.flac.FlacSideReader;

/** The only place where this room meets the FLAC room. */
final class FlacDoor {

  private FlacDoor() {}

  static SideReader open(Path path) throws IOException {
    return FlacSideReader.open(path);
  }

  static void rebuild(LayoutPiece.FlacFrames piece, WordSource samples, OutputStream out)
      throws IOException {
    FlacFrameRebuilder.rebuild(piece.recipe(), samples, piece.firstFrame(), piece.frames(), out);
  }
}
