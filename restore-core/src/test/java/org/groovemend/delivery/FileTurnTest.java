package org.groovemend.delivery;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FileTurnTest {

  private static final long PATIENCE = 120_000;

  @TempDir private Path folder;

  /** Adds one to the number in a file, some times: read, change, write. */
  public static void main(String[] args) throws IOException {
    Path file = Path.of(args[0]);
    for (int i = 0; i < Integer.parseInt(args[1]); i++) {
      try (FileTurn turn = FileTurn.take(file, PATIENCE)) {
        if (turn == null) {
          throw new IOException("no turn");
        }
        int now = Files.exists(file) ? Integer.parseInt(Files.readString(file)) : 0;
        RenewedFile.write(file, Integer.toString(now + 1).getBytes(UTF_8));
      }
    }
  }

  @Test
  void nothingIsLostAmongThreadsAndPrograms() throws Exception {
    Path file = folder.resolve("number");
    List<Process> programs = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      programs.add(
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-cp",
                  System.getProperty("java.class.path"),
                  FileTurnTest.class.getName(),
                  file.toString(),
                  "40")
              .inheritIO()
              .start());
    }
    ExecutorService threads = Executors.newFixedThreadPool(3);
    try {
      List<Future<?>> all = new ArrayList<>();
      for (int i = 0; i < 3; i++) {
        all.add(
            threads.submit(
                () -> {
                  main(new String[] {file.toString(), "40"});
                  return null;
                }));
      }
      for (Future<?> one : all) {
        one.get();
      }
      for (Process program : programs) {
        assertThat(program.waitFor(PATIENCE, TimeUnit.MILLISECONDS)).isTrue();
        assertThat(program.exitValue()).isZero();
      }
    } finally {
      threads.shutdownNow();
      programs.forEach(Process::destroy);
    }
    assertThat(Files.readString(file)).isEqualTo("200");
    assertThat(folder.resolve("number.lock")).doesNotExist();
  }

  @Test
  void whoHasNoPatienceIsToldAndWhatAKilledProgramLeftDoesNoHarm() throws IOException {
    Path file = folder.resolve("side.json");
    Files.createFile(folder.resolve("side.json.lock"));
    try (FileTurn turn = FileTurn.take(file, 0)) {
      assertThat(turn).isNotNull();
      assertThat(FileTurn.take(file, 0)).isNull();
      assertThat(FileTurn.take(file, 50)).isNull();
      // another name for the same file
      assertThat(FileTurn.take(folder.resolve(".").resolve("side.json"), 0)).isNull();
    }
    assertThat(folder.resolve("side.json.lock")).doesNotExist();
    try (FileTurn turn = FileTurn.take(file, 0)) {
      assertThat(turn).isNotNull();
    }
  }
}
