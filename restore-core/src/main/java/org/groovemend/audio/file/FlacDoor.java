package org.groovemend.audio.file;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;

/** The only place where this room meets the FLAC room. */
final class FlacDoor {

  private FlacDoor() {}

  // TODO issue 3: FLAC reading arrives with another branch: return FlacSideReader.open(path)
  static SideReader open(Path path) throws IOException {
    throw new InputRejectedException(
        path, "at byte 0", "FLAC is not read yet", "decode it to WAV and give the WAV file");
  }

  // TODO issue 3: FLAC reading arrives with another branch: FlacFrameRebuilder
  static void rebuild(LayoutPiece.FlacFrames piece, WordSource samples, OutputStream out)
      throws IOException {
    throw new IOException("FLAC frames are not rebuilt yet");
  }
}
