package org.groovemend.audio;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

/** An opened transfer of one side. Opens its file read-only and never changes it. */
public interface SideReader extends WordSource, Closeable {

  Path path();

  /** The container in words for people: "WAV (extensible)", "RF64", "AIFF-C (sowt)", "FLAC". */
  String container();

  /** The chunks or metadata blocks in file order, for people: "fmt 40 bytes", "bext 602 bytes". */
  List<String> parts();

  /** What was odd about the file but could be put right by reading on: one sentence each. */
  List<String> notices();

  /**
   * Tells, in file order, every byte of the file: the ones that are not samples as they are, the
   * samples by position and coding. What is told suffices for {@link FileRebuilder} to write the
   * file again, byte for byte.
   */
  void describeLayout(LayoutSink sink) throws IOException;

  /**
   * The chunks a copy must carry over, in file order, with one {@link WavChunk#isSamples() samples
   * marker} where the samples stand; containers other than WAV give only the marker.
   */
  List<WavChunk> wavChunks() throws IOException;
}
