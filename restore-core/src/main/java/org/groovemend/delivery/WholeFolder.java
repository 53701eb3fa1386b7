package org.groovemend.delivery;

import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;

/**
 * A folder with everything in it that appears by one rename, or not at all.
 *
 * <pre>{@code
 * try (WholeFolder folder = WholeFolder.open(Path.of("out/side"), false, List.of(original))) {
 *   try (OutputStream out = folder.create("data/side.wav")) { ... } // or write to folder.temporary(...)
 *   folder.commit();
 * }
 * }</pre>
 *
 * <p>Files may be written by any thread; the object itself is for one thread at a time.
 */
public final class WholeFolder implements Closeable {

  private static final String REPLACED = "replaced";

  private final Path target;
  private final FileSteps steps;
  private final MadeFolders above;
  private final boolean replace;
  private Path hidden;
  private Path content;
  private boolean committed;
  private boolean keepHidden;

  private WholeFolder(Path target, boolean replace, FileSteps steps) {
    this.target = target;
    this.replace = replace;
    this.steps = steps;
    this.above = new MadeFolders(steps);
  }

  /**
   * Prepares a folder: looks whether it may be written and makes a hidden one beside it.
   *
   * @param folder that is to appear; those above are made where they are missing
   * @param replace true if a folder that is there may be replaced with all that is in it: the
   *     caller vouches that this is nothing but an earlier output
   * @param inputs files that are read; none of them may lie in the folder
   * @throws OutputExistsException if it exists and {@code replace} is false
   * @throws OutputIsInputException if an input lies in it
   */
  public static WholeFolder open(Path folder, boolean replace, List<Path> inputs)
      throws IOException {
    return open(folder, replace, inputs, new DiskSteps());
  }

  static WholeFolder open(Path folder, boolean replace, List<Path> inputs, FileSteps steps)
      throws IOException {
    Path target = folder.toAbsolutePath().normalize();
    Path parent = target.getParent();
    if (parent == null) {
      throw new IllegalArgumentException(folder + " is the top of a file system");
    }
    if (Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
      if (!replace) {
        throw new OutputExistsException(target);
      }
      if (!Files.isDirectory(target, LinkOption.NOFOLLOW_LINKS)) {
        throw new IOException(
            target + " is a file and cannot be replaced by a folder; nothing was written.");
      }
      for (Path input : inputs) {
        if (Files.exists(input) && input.toRealPath().startsWith(target.toRealPath())) {
          throw new OutputIsInputException(target, input);
        }
      }
    }
    WholeFolder whole = new WholeFolder(target, replace, steps);
    try {
      whole.above.make(parent);
      whole.hidden = steps.createHiddenFolder(parent, OutputSet.PREFIX);
      whole.content = whole.hidden.resolve("content");
      steps.createFolder(whole.content);
      return whole;
    } catch (IOException e) {
      IOException explained = WriteTrouble.explainFolder(e, target);
      try {
        whole.close();
      } catch (IOException again) {
        explained.addSuppressed(again);
      }
      throw explained;
    }
  }

  /**
   * Where to write a file.
   *
   * @param name relative to the folder, parts joined by "/"; folders in between are made
   * @throws IllegalArgumentException if the name leads elsewhere
   */
  public Path temporary(String name) throws IOException {
    Path file;
    try {
      file = content.resolve(name).normalize();
    } catch (InvalidPathException e) {
      throw new IOException(
          "\""
              + name
              + "\" holds characters that file names cannot have here; nothing was written. Take them"
              + " out, or set a UTF-8 locale such as LC_ALL=C.UTF-8.",
          e);
    }
    if (name.isEmpty() || file.equals(content) || !file.startsWith(content)) {
      throw new IllegalArgumentException("\"" + name + "\" does not lie in the folder");
    }
    try {
      new MadeFolders(steps).make(Objects.requireNonNull(file.getParent(), "lies in content"));
    } catch (IOException e) {
      throw WriteTrouble.explain(e, target.resolve(name));
    }
    return file;
  }

  /** Creates a file; its troubles are told in sentences for people. Not buffered. */
  public OutputStream create(String name) throws IOException {
    Path file = temporary(name);
    try {
      return WriteTrouble.explaining(steps.create(file), target.resolve(name));
    } catch (IOException e) {
      throw WriteTrouble.explain(e, target.resolve(name));
    }
  }

  /**
   * Trouble that was met while a file in such a folder was written by others: of a full disk the
   * sentence for people, else as it came.
   */
  public static IOException explained(IOException trouble, Path folder) {
    return WriteTrouble.diskFull(trouble) ? WriteTrouble.explain(trouble, folder) : trouble;
  }

  /** Where the content lies until {@link #commit}, for those who read it again. */
  public Path content() {
    return content;
  }

  /**
   * Puts the folder in place. When it returns, all is there; when it throws, nothing is, and what
   * was to be replaced is there as before.
   */
  public void commit() throws IOException {
    if (committed) {
      throw new IllegalStateException("the folder is in place already");
    }
    Path old = hidden.resolve(REPLACED);
    boolean aside = false;
    try {
      for (Path path : below(content)) {
        if (Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS)) {
          steps.forceFolder(path);
        } else {
          steps.force(path);
        }
      }
      if (replace && Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
        steps.move(target, old);
        aside = true;
      }
      steps.move(content, target);
      committed = true;
    } catch (IOException e) {
      IOException told = WriteTrouble.explain(e, target);
      throw aside ? putBack(old, told) : told;
    }
    steps.forceFolder(target.getParent());
  }

  private IOException putBack(Path old, IOException reason) {
    try {
      steps.move(old, target);
      return reason;
    } catch (IOException e) {
      keepHidden = true;
      IOException told =
          new IOException(
              reason.getMessage()
                  + " "
                  + old
                  + " could not be taken back to "
                  + target
                  + "; move it by hand.",
              reason);
      told.addSuppressed(e);
      return told;
    }
  }

  /** Everything in a folder and the folder itself, what is deepest first. */
  private static List<Path> below(Path folder) throws IOException {
    try (Stream<Path> all = Files.walk(folder)) {
      List<Path> paths = new ArrayList<>(all.toList());
      paths.sort(Comparator.reverseOrder());
      return paths;
    }
  }

  /**
   * Removes what is hidden. Without {@link #commit} nothing remains, nor of folders made above it.
   *
   * @throws IOException if something could not be removed; after a commit the folder is complete
   *     nevertheless
   */
  @Override
  public void close() throws IOException {
    if (hidden != null && !keepHidden) {
      Path away = hidden;
      hidden = null;
      try {
        for (Path path : below(away)) {
          steps.delete(path);
        }
      } catch (IOException e) {
        throw new IOException(
            (committed ? "The folder is complete, but the" : "The")
                + " hidden folder "
                + away
                + " could not be removed; remove it by hand.",
            e);
      }
    }
    if (!committed && !keepHidden) {
      above.takeBack();
    }
  }
}
