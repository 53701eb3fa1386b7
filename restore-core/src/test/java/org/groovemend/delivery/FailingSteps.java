package org.groovemend.delivery;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;

/** The real file system, but chosen steps fail. */
final class FailingSteps implements FileSteps {

  private final DiskSteps disk = new DiskSteps();
  private final IntPredicate fails;
  private final String message;
  final List<String> taken = new ArrayList<>();
  boolean failed;

  /** The step with this number, counted from 1, fails, once. */
  static FailingSteps at(int number) {
    return new FailingSteps(n -> n == number, "No space left on device");
  }

  FailingSteps(IntPredicate fails, String message) {
    this.fails = fails;
    this.message = message;
  }

  private void step(String name) throws IOException {
    taken.add(name);
    if (fails.test(taken.size())) {
      failed = true;
      throw new IOException(message);
    }
  }

  @Override
  public void createFolder(Path folder) throws IOException {
    step("createFolder");
    disk.createFolder(folder);
  }

  @Override
  public Path createHiddenFolder(Path parent, String prefix) throws IOException {
    step("createHiddenFolder");
    return disk.createHiddenFolder(parent, prefix);
  }

  @Override
  public OutputStream create(Path file) throws IOException {
    step("create");
    return disk.create(file);
  }

  @Override
  public void force(Path file) throws IOException {
    step("force");
    disk.force(file);
  }

  @Override
  public void forceFolder(Path folder) throws IOException {
    step("forceFolder");
    disk.forceFolder(folder);
  }

  @Override
  public void move(Path from, Path to) throws IOException {
    step("move " + from.getFileName() + " " + to.getFileName());
    disk.move(from, to);
  }

  @Override
  public void replace(Path from, Path to) throws IOException {
    step("replace");
    disk.replace(from, to);
  }

  @Override
  public void delete(Path path) throws IOException {
    step("delete");
    disk.delete(path);
  }
}
