package org.groovemend.audio.file;

import java.io.IOException;

/** A side in a WAV, RF64 or BW64 file. */
final class WavSideReader extends PcmSideReader {

  private final WavKind kind;

  private WavSideReader(SideBytes file, ParsedSide side, WavKind kind) {
    super(file, side);
    this.kind = kind;
  }

  static WavSideReader open(SideBytes file) throws IOException {
    WavParser parser = new WavParser(file);
    return new WavSideReader(file, parser.parse(), parser.kind());
  }

  WavKind kind() {
    return kind;
  }
}
