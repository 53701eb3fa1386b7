package org.groovemend.audio.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SideReader;

/**
 * Opens the transfer of a side, whatever kind of file it is; the name of the file plays no part.
 */
public final class SideFiles {

  private SideFiles() {}

  /**
   * Opens a file as a side, for reading only.
   *
   * @return a reader at the start of the side; the caller closes it
   * @throws InputRejectedException if the file is missing, cannot be read, or cannot be taken as a
   *     side
   */
  public static SideReader open(Path path) throws IOException {
    if (Files.isDirectory(path)) {
      throw new InputRejectedException(path, "", "it is a folder", "name one audio file in it");
    }
    if (Files.exists(path) && !Files.isRegularFile(path)) {
      throw new InputRejectedException(
          path, "", "it is not an ordinary file", "save the sound to a file first");
    }
    FileChannel channel;
    try {
      channel = FileChannel.open(path, StandardOpenOption.READ);
    } catch (NoSuchFileException e) {
      throw new InputRejectedException(
          path, "", "there is no such file", "check the name and the folder");
    } catch (AccessDeniedException e) {
      throw new InputRejectedException(
          path, "", "this user may not read it", "give yourself the right to read it");
    }
    boolean kept = false;
    try {
      SideBytes file = new SideBytes(path, channel);
      FileKind kind = FileKind.of(file);
      if (kind == FileKind.FLAC) {
        return FlacDoor.open(path);
      }
      SideReader reader =
          kind == FileKind.WAV ? WavSideReader.open(file) : AiffSideReader.open(file);
      kept = true;
      return reader;
    } finally {
      if (!kept) {
        channel.close();
      }
    }
  }
}
