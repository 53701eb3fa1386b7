package org.groovemend.delivery;

import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;

/**
 * Files that appear in a folder together or not at all.
 *
 * <pre>{@code
 * try (OutputSet set = OutputSet.open(folder, List.of("a.wav", "a.ledger.jsonl"), false, List.of(original))) {
 *   try (OutputStream out = set.create("a.wav")) { ... }      // or write to set.temporary("a.wav")
 *   try (OutputStream out = set.create("a.ledger.jsonl")) { ... }
 *   set.commit();
 * }
 * }</pre>
 *
 * <p>Not safe for use by several threads at once, but the files may be written by any.
 */
public final class OutputSet implements Closeable {

  static final String PREFIX = ".groovemend-";
  private static final String REPLACED = ".replaced-";

  private final Path folder;
  private final List<String> names;
  private final boolean replace;
  private final FileSteps steps;
  private final MadeFolders folders;
  private Path hidden;
  private boolean committed;
  private boolean keepHidden;

  private OutputSet(Path folder, List<String> names, boolean replace, FileSteps steps) {
    this.folder = folder;
    this.names = List.copyOf(names);
    this.replace = replace;
    this.steps = steps;
    this.folders = new MadeFolders(steps);
  }

  /**
   * Prepares a set: looks whether it may be written, creates the folder where missing and the
   * hidden folder in it.
   *
   * @param folder where the files are to appear
   * @param finalNames their names, all different, in the order in which they are put in place: what
   *     completes the set last
   * @param replace true if files that exist may be replaced
   * @param inputs files that are read and must never be written over
   * @throws OutputExistsException if one exists and {@code replace} is false
   * @throws OutputIsInputException if one is the same file as an input, by whatever name
   */
  public static OutputSet open(
      Path folder, List<String> finalNames, boolean replace, List<Path> inputs) throws IOException {
    return open(folder, finalNames, replace, inputs, new DiskSteps());
  }

  /** As the other one, without inputs. */
  public static OutputSet open(Path folder, List<String> finalNames, boolean replace)
      throws IOException {
    return open(folder, finalNames, replace, List.of());
  }

  static OutputSet open(
      Path folder, List<String> finalNames, boolean replace, List<Path> inputs, FileSteps steps)
      throws IOException {
    Path target = folder.toAbsolutePath();
    requireNames(target, finalNames);
    for (String name : finalNames) {
      requireFree(target.resolve(name), replace, inputs);
    }
    OutputSet set = new OutputSet(target, finalNames, replace, steps);
    try {
      set.folders.make(target);
      set.hidden = steps.createHiddenFolder(target, PREFIX);
      return set;
    } catch (IOException e) {
      IOException explained = WriteTrouble.explainFolder(e, target);
      set.closeAfter(explained);
      throw explained;
    }
  }

  /**
   * Takes up a set that another process has left with {@link #leave}, to put it in place or to give
   * it up. Where several processes may do the same work, each leaves its own set and one process
   * alone takes sets up: no two then move files at once.
   *
   * @param hidden what {@link #leave} has returned
   * @throws NoSuchFileException if it is not there, or is not seen from this machine
   * @throws OutputExistsException if a file exists and {@code replace} is false; the set that was
   *     left is removed then
   */
  public static OutputSet takeUp(
      Path folder, String hidden, List<String> finalNames, boolean replace, List<Path> inputs)
      throws IOException {
    return takeUp(folder, hidden, finalNames, replace, inputs, new DiskSteps());
  }

  static OutputSet takeUp(
      Path folder,
      String hidden,
      List<String> finalNames,
      boolean replace,
      List<Path> inputs,
      FileSteps steps)
      throws IOException {
    Path target = folder.toAbsolutePath();
    requireNames(target, finalNames);
    Path left = target.resolve(hidden);
    if (!hidden.startsWith(PREFIX) || !target.normalize().equals(left.normalize().getParent())) {
      throw new IllegalArgumentException("\"" + hidden + "\" is no set that was left");
    }
    if (!Files.isDirectory(left, LinkOption.NOFOLLOW_LINKS)) {
      throw new NoSuchFileException(left.toString());
    }
    OutputSet set = new OutputSet(target, finalNames, replace, steps);
    set.hidden = left;
    try {
      for (String name : finalNames) {
        requireFree(target.resolve(name), replace, inputs);
      }
      return set;
    } catch (IOException e) {
      set.closeAfter(e);
      throw e;
    }
  }

  private static void requireNames(Path folder, List<String> names) {
    if (names.isEmpty() || new HashSet<>(names).size() != names.size()) {
      throw new IllegalArgumentException("a set needs names, all different: " + names);
    }
    for (String name : names) {
      Path file = folder.resolve(name).normalize();
      if (!folder.normalize().equals(file.getParent()) || name.startsWith(REPLACED)) {
        throw new IllegalArgumentException("\"" + name + "\" is not a file name without a folder");
      }
    }
  }

  private static void requireFree(Path file, boolean replace, List<Path> inputs)
      throws IOException {
    if (!Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    if (Files.exists(file)) {
      for (Path input : inputs) {
        if (Files.isSameFile(file, input)) {
          throw new OutputIsInputException(file, input);
        }
      }
    }
    if (!replace) {
      throw new OutputExistsException(file);
    }
    if (Files.isDirectory(file)) {
      throw new IOException(
          file + " is a folder and cannot be replaced by a file; nothing was written.");
    }
  }

  /** Where to write the file that is to have this name. */
  public Path temporary(String name) {
    if (!names.contains(name)) {
      throw new IllegalArgumentException("\"" + name + "\" is not in the set " + names);
    }
    return hidden.resolve(name);
  }

  /**
   * Creates the file that is to have this name; its troubles are told in sentences for people. Not
   * buffered.
   */
  public OutputStream create(String name) throws IOException {
    Path target = folder.resolve(name);
    try {
      return WriteTrouble.explaining(steps.create(temporary(name)), target);
    } catch (IOException e) {
      throw WriteTrouble.explain(e, target);
    }
  }

  /**
   * Puts all files in place, in the order of the names. When it returns, all are there; when it
   * throws, none is, and what was to be replaced is there as before.
   *
   * @throws IllegalStateException if one of the files was not written, or on a second call
   */
  public void commit() throws IOException {
    requireWritten();
    Deque<Move> done = new ArrayDeque<>();
    try {
      for (String name : names) {
        steps.force(temporary(name));
      }
      setAside(done);
      for (String name : names) {
        move(new Move(temporary(name), folder.resolve(name), true), done);
      }
      steps.forceFolder(folder);
      committed = true;
    } catch (IOException e) {
      throw takeBack(done, WriteTrouble.explain(e, folder));
    }
  }

  /**
   * Leaves the set as it is, complete and on the disk, but not in place: {@link #close} removes
   * nothing then, and {@link #takeUp} goes on with it, in another process or on another machine.
   *
   * @return name of the hidden folder that holds it
   * @throws IllegalStateException as {@link #commit}
   */
  public String leave() throws IOException {
    requireWritten();
    try {
      for (String name : names) {
        steps.force(temporary(name));
      }
      steps.forceFolder(hidden);
      steps.forceFolder(folder);
    } catch (IOException e) {
      throw WriteTrouble.explain(e, folder);
    }
    keepHidden = true;
    return String.valueOf(hidden.getFileName());
  }

  private void requireWritten() {
    if (committed || keepHidden) {
      throw new IllegalStateException("the set is in place already, or was left");
    }
    for (String name : names) {
      if (!Files.isRegularFile(temporary(name))) {
        throw new IllegalStateException("\"" + name + "\" was not written");
      }
    }
  }

  /** Moves what is to be replaced out of the way; what completes the old set goes first. */
  private void setAside(Deque<Move> done) throws IOException {
    for (int i = names.size() - 1; i >= 0; i--) {
      Path old = folder.resolve(names.get(i));
      if (Files.exists(old, LinkOption.NOFOLLOW_LINKS)) {
        if (!replace) {
          throw new OutputExistsException(old);
        }
        move(new Move(old, hidden.resolve(REPLACED + i), false), done);
      }
    }
  }

  private record Move(Path from, Path to, boolean ours) {}

  private void move(Move move, Deque<Move> done) throws IOException {
    steps.move(move.from(), move.to());
    done.push(move);
  }

  /** Undoes moves; what cannot be undone is added to what is told to the person. */
  private IOException takeBack(Deque<Move> done, IOException reason) {
    IOException told = reason;
    for (Move move : done) {
      try {
        steps.move(move.to(), move.from());
      } catch (IOException e) {
        if (!move.ours() || !deleted(move.to())) {
          // the hidden folder may hold the only copy of a file that was to be replaced
          keepHidden = true;
          told =
              new IOException(
                  told.getMessage()
                      + " "
                      + move.to()
                      + " could not be taken back to "
                      + move.from()
                      + "; move it by hand.",
                  told);
          told.addSuppressed(e);
        }
      }
    }
    return told;
  }

  private boolean deleted(Path file) {
    try {
      steps.delete(file);
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  /**
   * Removes the hidden folder. Without {@link #commit} nothing remains of the set, nor of folders
   * that were created for it.
   *
   * @throws IOException if something could not be removed; after a commit the set is complete
   *     nevertheless
   */
  @Override
  public void close() throws IOException {
    if (hidden != null && !keepHidden) {
      Path folderToRemove = hidden;
      hidden = null;
      try {
        removeHidden(folderToRemove);
      } catch (IOException e) {
        throw new IOException(
            (committed ? "The files are complete, but the" : "The")
                + " hidden folder "
                + folderToRemove
                + " could not be removed; remove it by hand.",
            e);
      }
    }
    if (!committed && !keepHidden) {
      folders.takeBack();
    }
  }

  private void removeHidden(Path folderToRemove) throws IOException {
    List<Path> left;
    try (var entries = Files.list(folderToRemove)) {
      left = entries.toList();
    }
    IOException trouble = null;
    for (Path file : left) {
      try {
        steps.delete(file);
      } catch (IOException e) {
        trouble = e;
      }
    }
    if (trouble != null) {
      throw trouble;
    }
    steps.delete(folderToRemove);
  }

  private void closeAfter(IOException reason) {
    try {
      close();
    } catch (IOException e) {
      reason.addSuppressed(e);
    }
  }
}
