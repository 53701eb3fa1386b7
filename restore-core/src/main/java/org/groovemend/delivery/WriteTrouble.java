package org.groovemend.delivery;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.util.Locale;

/** What a system says when writing fails, as a sentence for people. */
public final class WriteTrouble {

  private WriteTrouble() {}

  /**
   * The trouble with the sentence; trouble that already is one of this room's is returned as it is.
   */
  static IOException explain(IOException trouble, Path target) {
    if (trouble instanceof OutputExistsException || trouble instanceof OutputIsInputException) {
      return trouble;
    }
    return new IOException(sentence(trouble, target), trouble);
  }

  /** The same for a folder that could not be made. */
  static IOException explainFolder(IOException trouble, Path folder) {
    return trouble instanceof NoSuchFileException
        ? new IOException(folder + ": no folder can be made there; choose another one.", trouble)
        : explain(trouble, folder);
  }

  /** True if there is no room left. */
  public static boolean diskFull(IOException trouble) {
    String lower = said(trouble).toLowerCase(Locale.ROOT);
    return lower.contains("no space left")
        || lower.contains("not enough space")
        || lower.contains("disk full")
        || lower.contains("quota");
  }

  private static String said(IOException trouble) {
    return trouble instanceof FileSystemException f && f.getReason() != null
        ? f.getReason()
        : trouble.getMessage() == null ? "" : trouble.getMessage();
  }

  private static String sentence(IOException trouble, Path target) {
    String said = said(trouble);
    String lower = said.toLowerCase(Locale.ROOT);
    if (diskFull(trouble)) {
      return target
          + ": the disk is full; nothing is left there. Make room or choose another folder.";
    }
    if (trouble instanceof AccessDeniedException || lower.contains("permission denied")) {
      return target
          + ": no permission to write there; choose another folder or change its permissions.";
    }
    if (lower.contains("read-only")) {
      return target + ": the disk is read-only; choose another folder.";
    }
    if (trouble instanceof NotDirectoryException f) {
      return f.getFile() + " is a file, not a folder; choose another folder.";
    }
    if (trouble instanceof NoSuchFileException) {
      return target + ": the file or its folder is not there any more.";
    }
    String kind = said.isEmpty() ? trouble.getClass().getSimpleName() : said;
    return target + ": cannot be written: " + kind + ".";
  }

  /** A stream whose troubles are explained. */
  static OutputStream explaining(OutputStream out, Path target) {
    return new FilterOutputStream(out) {
      @Override
      public void write(int b) throws IOException {
        try {
          out.write(b);
        } catch (IOException e) {
          throw explain(e, target);
        }
      }

      @Override
      public void write(byte[] bytes, int offset, int length) throws IOException {
        try {
          out.write(bytes, offset, length);
        } catch (IOException e) {
          throw explain(e, target);
        }
      }

      @Override
      public void close() throws IOException {
        try {
          out.close();
        } catch (IOException e) {
          throw explain(e, target);
        }
      }
    };
  }
}
