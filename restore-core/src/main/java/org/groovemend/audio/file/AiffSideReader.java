package org.groovemend.audio.file;

import java.io.IOException;

/** A side in an AIFF or AIFF-C file. */
final class AiffSideReader extends PcmSideReader {

  private AiffSideReader(SideBytes file, ParsedSide side) {
    super(file, side);
  }

  static AiffSideReader open(SideBytes file) throws IOException {
    return new AiffSideReader(file, new AiffParser(file).parse());
  }
}
