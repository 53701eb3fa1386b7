package org.groovemend.job.handover;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.bag.BagWriter;
import org.groovemend.bag.DigestAlgorithm;
import org.groovemend.chain.Progress;
import org.groovemend.job.side.RequestRefusedException;

/**
 * Makes a bag of a copy of everything in a folder. The folder is only read; hidden files are left
 * out, and locks, which mean something only where they lie.
 */
public final class MakeBag {

  private static final int BUFFER_BYTES = 1 << 16;

  private MakeBag() {}

  /**
   * Copies and lists; the bag appears whole or not at all.
   *
   * @param folder whose files are copied
   * @param bag that is to appear; must not lie in the folder
   * @param date for bag-info.txt
   * @return files in the payload
   * @throws InputRejectedException if there is no such folder, or nothing in it
   */
  public static int run(Path folder, Path bag, LocalDate date, Progress progress)
      throws IOException {
    Path from = folder.toAbsolutePath().normalize();
    if (!Files.isDirectory(from)) {
      throw new InputRejectedException(
          folder, "", "there is no such folder", "name the folder whose files the bag is to hold");
    }
    if (bag.toAbsolutePath().normalize().startsWith(from)) {
      throw new RequestRefusedException(
          "the bag " + bag + " would lie in the folder " + folder + "; choose a place beside it");
    }
    List<Path> files = files(from);
    if (files.isEmpty()) {
      throw new InputRejectedException(folder, "", "it holds no file", "name another folder");
    }
    long total = 0;
    for (Path file : files) {
      total += Files.size(file);
    }
    long all = Math.max(1, 2 * total);
    long[] done = {0};
    try (BagWriter writer = BagWriter.open(bag, false, List.of(), Set.of(DigestAlgorithm.SHA256))) {
      for (Path file : files) {
        Path to = writer.payload(name(from, file));
        byte[] buffer = new byte[BUFFER_BYTES];
        try (InputStream in = Files.newInputStream(file);
            OutputStream out = Files.newOutputStream(to, StandardOpenOption.CREATE_NEW)) {
          for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
            out.write(buffer, 0, n);
            done[0] += n;
            progress.at("copying", Math.min(done[0], all), all);
          }
        }
      }
      writer.commit(
          date,
          n -> {
            done[0] += n;
            progress.at("checksums", Math.min(done[0], all), all);
          });
    }
    return files.size();
  }

  private static List<Path> files(Path folder) throws IOException {
    List<Path> files = new ArrayList<>();
    Files.walkFileTree(
        folder,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path below, BasicFileAttributes is) {
            return hidden(below) && !below.equals(folder)
                ? FileVisitResult.SKIP_SUBTREE
                : FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes is) {
            boolean lock = file.getFileName().toString().endsWith("batch.lock");
            if (!hidden(file) && !lock && Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
              files.add(file);
            }
            return FileVisitResult.CONTINUE;
          }
        });
    files.sort(null);
    return files;
  }

  private static boolean hidden(Path path) {
    return path.getFileName() != null && path.getFileName().toString().startsWith(".");
  }

  private static String name(Path folder, Path file) {
    StringBuilder name = new StringBuilder();
    for (Path part : folder.relativize(file)) {
      name.append(name.length() == 0 ? "" : "/").append(part);
    }
    return name.toString();
  }
}
